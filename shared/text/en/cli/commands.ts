/** Texts of the command line and of commands that have no folder of their own. */
import { formatCount } from '../format.ts';

type Word = string | number;

/** Headings of a help text, by the library's own words for them. */
const helpTitles: Readonly<Record<string, string>> = {
  'Usage:': 'Usage:',
  'Arguments:': 'Arguments:',
  'Options:': 'Options:',
  'Commands:': 'Commands:',
};

export const commandTexts = {
  noSuchOption: ({ option, path, remedy }: Record<'option' | 'path' | 'remedy', Word>) =>
    `Cannot read ${option}: ${path} has no such option. ${remedy}`,
  valueMustFollow: ({ option, remedy }: Record<'option' | 'remedy', Word>) =>
    `Cannot read ${option}: a value must follow it. ${remedy}`,
  argumentMustBeGiven: ({ path, argument, usage }: Record<'path' | 'argument' | 'usage', Word>) =>
    `Cannot run ${path}: ${argument} must be given. Usage: ${usage}`,
  cannotRun: ({ path, reason, remedy }: Record<'path' | 'reason' | 'remedy', Word>) =>
    `Cannot run ${path}: ${reason}. ${remedy}`,
  cannotGoOnWithTheDemo: (why: Word) => `Cannot continue the demo: ${why}`,
  noServerHasRun: ({ dataDir, options }: Record<'dataDir' | 'options', Word>) =>
    `Cannot record: no server has used ${dataDir} yet. Start one first: stillwell serve${options}`,
  serverMustBeRunning: ({ why, options }: Record<'why' | 'options', Word>) =>
    `${why} The server must be running: stillwell serve${options}`,
  cannotReachTheServer: (address: Word) =>
    `Cannot reach ${address}: is the server running there? To start it: stillwell serve`,
  helpTitles,
  anyOptions: '[options]',
  anyCommand: '[command]',
  listAlarmsActiveOnesFirst: 'List alarms: active ones first, then the newest. The server must be running.',
  nameOfAWellDefault: 'Name of a well. Default: all wells.',
  listActiveAlarmsOnly: 'List active alarms only.',
  examplesOfAlarms: '\nExamples:\n  stillwell alarms --active\n  stillwell alarms mill --json',
  pump: (number: Word) => `pump ${number}`,
  alarmStates: {
    active: 'active',
    acknowledged: 'acknowledged',
    shelved: 'shelved',
    cleared: 'cleared',
    withdrawn: 'withdrawn',
    ended: 'ended',
  },
  /** The first of many rows: "2, 3, 4 …" */
  firstRows: (rows: Word) => `${rows} …`,
  /** What cannot be done with a file: "Cannot read wells.csv". */
  reading: 'read',
  writing: 'write',
  noActiveAlarms: 'No active alarms.',
  noAlarms: 'No alarms.',
  showAlderBenchAnInvented:
    'Show Alder Bench, an invented farm with four simulated wells; three of them are in trouble. The past is simulated first, which takes a minute or two. Then the demo runs in real time until you press Ctrl-C. Nothing is saved.',
  daysOfPastDefault: (defaultDays: Word) => `Days of history to simulate. Default: ${defaultDays}.`,
  portOfThePagesOnly: (defaultPort: Word) =>
    `Port of the pages. Only this computer can open them. Default: ${defaultPort}.`,
  examplesOfDemo: '\nExample:\n  stillwell demo --days 14',
  alderBenchAnInventedFarm: ({ days, url }: { days: number; url: string }) =>
    `Alder Bench, an invented farm. Simulating the past ${formatCount(days, 'day')}. Pages: ${url}`,
  readingsOfThePast: ({ readings, value }: Record<'readings' | 'value', number>) =>
    `${formatCount(readings, 'past reading')} simulated in ${value} s; now live. Stop with Ctrl-C.`,
  /** Of the bar of progress; the names in braces stay. */
  progressOfThePast: 'past [{bar}] {percentage} %, {eta_formatted} left',
  farmOffice: 'farm office',
  use: ({ path, reason }: Record<'path' | 'reason', Word>) => `Cannot use${path}: ${reason}`,
  itMustBeAFile: (path: Word) => `Cannot read ${path}: it must be a file`,
  itMayHaveMibAt: ({ path, maxBytes, value }: Record<'path' | 'maxBytes' | 'value', Word>) =>
    `Cannot read ${path}: it must be at most ${maxBytes} MiB: ${value} MiB`,
  itMustBeUtfSave: (path: Word) => `Cannot read ${path}: it must be UTF-8. Save it as "CSV UTF-8"`,
  itExistsAlreadyChooseAnother: (path: Word) =>
    `Cannot write ${path}: it already exists. Choose another name`,
  isForgotten: (node: Word) => `${node} was forgotten.`,
  thereIsNoDatabase: (dataDir: Word) =>
    `Cannot forget a node: there is no database in ${dataDir}. Name another folder with --data`,
  nameOfTheNode: 'Name of the node: 1 to 40 characters from a-z, 0-9 and -.',
  manageTheNodesTheBoxes:
    'Manage the nodes (the boxes with sensors) of the built-in broker. A node may publish its own readings and receive its own acknowledgements, nothing else. The server may be running; it sees a change within two seconds.',
  listTheNodesThatHave: 'List the nodes that have a password.',
  removeThePassword: 'Remove the password of a node, so that it cannot connect again. Its readings are kept.',
  makeAUserName:
    'Create a user name and a password for a node. The password is printed once. Adding a node again gives it a new password.',
  anotherNodeWhoseReadingsThis:
    'Another node whose readings this gateway publishes. Repeat the option for each.',
  examplesOfNodeAdd:
    '\nExamples:\n  stillwell node add barn-north\n  stillwell node add gateway --speaks-for barn-north --speaks-for mill',
  forgetNodesThatAreGone:
    'Forget nodes that are gone, and the wells that were created for them. A node that has sent readings stays, and so does one that a card names. Remove its password first, or it comes back when it connects.',
  addressOfTheRunningServer: 'Address of the running server. Default: the one in the settings.',
  examplesOfNodeForget: '\nExample:\n  stillwell node forget barn-nroth',
  noNodeHasAPassword: 'No node has a password yet. To create one: stillwell node add NAME',
  since: (since: Word) => `since ${since}`,
  sinceSpeaksFor: ({ since, names }: Record<'since' | 'names', Word>) =>
    `since ${since}  speaks for ${names}`,
  itHasNoPasswordTry: (name: Word) => `Cannot remove ${name}: it has no password. Try: stillwell node list`,
  cannotConnectAgainAConnection: (name: Word) =>
    `${name} cannot connect again. A connection that is open stays open until it ends.`,
  nodeName: (wrong: Word) =>
    `Cannot add ${wrong}: a node name must be 1 to 40 characters from a-z, 0-9 and -`,
  userName: (name: Word) => `User name  ${name}`,
  password: (password: Word) => `Password   ${password}`,
  putThePasswordInto: 'Enter the password in the node now, or write it down. It is not shown again.',
  addressOfTheServerWithDefault: (address: Word) => `Address of the running server. Default: ${address}.`,
  printJsonForOtherPrograms: 'Print JSON for other programs, one object on each line.',
  whoDidItDefaultYour: 'Person who did it. Default: your user name on this computer.',
  whenItWasSoDefault: 'Date of the event, such as 2026-11-30. Default: now.',
  remark: 'A note.',
  photoOrDocumentToKeep: 'A photo or document to save with it. Repeat the option for each file.',
  settingsFileOfTheServer: 'Settings file of the server. Default: .stillwell/settings.json.',
  dataFolderOfTheServer: 'Data folder of the server. Default: the one in the settings, or .stillwell.',
  usOrMetricDefaultUs: 'us or metric. Default: us.',
  itMustBeUs: (text: Word) => `Cannot read --units: it must be us or metric: ${text}`,
  itMustBeAWhole: ({ flag, from, to, text }: Record<'flag' | 'from' | 'to' | 'text', Word>) =>
    `Cannot read ${flag}: it must be a whole number from ${from} to ${to}: ${text}`,
  itMustBeADate: ({ flag, text }: Record<'flag' | 'text', Word>) =>
    `Cannot read ${flag}: it must be a date such as 2026-11-30: ${text}`,
  watchWells: 'Watch wells:',
  cardsAndLogbook: 'Cards and logbook of a well:',
  nodesAndNotices: 'Nodes and notices:',
  recordingsAndExports: 'Recordings and exports:',
  watchYourWellsUntilYou: 'Watch your wells until you press Ctrl-C.',
  showAnInventedFarm: 'Show an invented farm with four simulated wells.',
  listAlarms: 'List alarms.',
  showChangeCheckImport: 'Show, change, check, import and export cards.',
  listTheChecks: 'List the checks that are due, and record checks.',
  openAndCloseVisits: 'Open and close visits, and record work.',
  recordAndListReadings: 'Record and list readings that a person took.',
  recordAndListWaterTests: 'Record and list water tests.',
  keepManualsReceiptsWellLogs: 'Save manuals, receipts, well logs and photos.',
  announceGuestsIrrigationAShutdown: 'Announce guests, irrigation, a shutdown or the end of one.',
  listTheLogbookAdd: 'List the logbook, add an entry or void one.',
  printLabelsForTheEquipment: 'Print labels for the equipment of a well.',
  manageTheCredentialsOfNodes: 'Manage the credentials of nodes.',
  listTheMessagesThatWere: 'List the messages that were refused, and why.',
  sendATestNotice: 'Send a test notice.',
  recordWhatNodesSend: 'Record what nodes send and what people do.',
  printTheCyclesDaysBaselines: 'Print the cycles, days, baselines and alarms of a recording.',
  writeEverythingKnownAbout: 'Write everything known about a well to one file.',
  readAnExportOfAnother: 'Read an export from another server.',
  stillwellWatchesWaterWells:
    'Stillwell watches water wells with a current clamp and a pressure transducer. It reports changes early. It cannot switch a pump and is not a safety device.',
  printTheVersion: 'Print the version.',
  printThisHelp: 'Print this help.',
  helpForOneCommandStillwell: '\nHelp for one command: stillwell COMMAND --help',
  itMustBeOne: ({ word, commands }: Record<'word' | 'commands', Word>) =>
    `Cannot run "${word}": it must be one of ${commands}. Try: stillwell --help`,
  oneOfMustFollowTry: ({ path, names }: Record<'path' | 'names', Word>) =>
    `Cannot run ${path}: it needs one of ${names}. Try: ${path} --help`,
  itMustBeOneOfTry: ({ path, word, names }: Record<'path' | 'word' | 'names', Word>) =>
    `Cannot run "${path} ${word}": it must be one of ${names}. Try: ${path} --help`,
  nothingMoreMayFollowUsage: ({ extra, usageOf }: Record<'extra' | 'usageOf', Word>) =>
    `Cannot read "${extra}": too many arguments. Usage: ${usageOf}`,
  tryHelp: (command: Word) => `Try: ${command} --help`,
  didYouMean: (suggestion: Word) => `Did you mean ${suggestion}?`,
  recordWhatNodesSendAndWhat:
    'Record what nodes send and what people do, until you press Ctrl-C. The server must be running; recording changes nothing in it.',
  fileToMakeAFile: 'File to create. An existing file is not overwritten. - writes to stdout.',
  examplesOfRecord:
    '\nExamples:\n  stillwell record alder-bench.ndjson\n  stillwell record - --data /srv/alder-bench | gzip > alder-bench.ndjson.gz',
  recordingEndWithCtrlC: 'Recording. Stop with Ctrl-C.',
  recordedMessagesAndActs: ({ messages, acts }: Record<'messages' | 'acts', number>) =>
    `Recorded ${formatCount(messages, 'message')} and ${formatCount(acts, 'act')}.`,
  listTheMessages:
    'List the messages that the server refused: counts by reason, then the last ones. Every refused message is saved, so that its sender can be corrected. The server must be running.',
  howManyOfTheLast: (defaultLimit: Word) => `Number of last messages to list. Default: ${defaultLimit}.`,
  examplesOfRefused: '\nExample:\n  stillwell refused --limit 5',
  noMessageWasRefused: 'No message was refused.',
  countLast: ({ count, moment }: Record<'count' | 'moment', Word>) => `${count}  last ${moment}`,
  lastOnes: 'Last messages:',
  printTheCyclesDaysBaselinesAnd:
    'Print the cycles, days, baselines and alarms of a recording, one JSON object on each line. The lines are in time order. No server is needed. The exit code is 2 if the recording or a card cannot be used.',
  fileFromStillwellRecord:
    'File from "stillwell record", or from any MQTT client that prints JSON, plain or gzip. - reads stdin.',
  cardJsonOfAWell:
    'Card (.json) of a well that has no card in the recording. Repeat the option for each well. With NODE= the well reads from that node.',
  firstPartOfTheTopics: 'First part of the topics. Default: wells.',
  examplesOfReplay:
    '\nExamples:\n  stillwell replay alder-bench.ndjson.gz --card north-paddock.json\n  stillwell replay --card pumphouse=mill.json - < mill.ndjson',
  sendATestNoticeToA:
    'Send a test notice to a recipient, through each of the channels in the settings. Then check that the recipient got it.',
  nameOfTheRecipientUnder: 'Name of the recipient under "notices" in the settings. Default: all recipients.',
  examplesOfSendtest: '\nExample:\n  stillwell send-test Anna',
  to: (name: Word) => ` to ${name}`,
  cannotSendATestNotice: (rest: Word) => `Cannot send a test notice${rest}: `,
  settingsNameNoRecipientAdd: 'the settings name no recipient. Add one under "notices"',
  settingsName: (known: Word) => `the settings name ${known}`,
  builtInBrokerIsPart:
    'the built-in broker accepts notices only from the running server, so this command cannot test this channel',
  watchYourWellsUntilYouPress: (defaultServer: Word) =>
    `Watch your wells until you press Ctrl-C. No settings are needed: nodes publish to this computer, and the pages are at ${defaultServer}/. Each node needs its own user name and password: stillwell node add NAME`,
  addressOfThisComputer:
    "Address of this computer on the farm's network. Nodes with a password connect to the broker there. Phones read the calendar of checks there.",
  portOfTheBuilt: 'Port of the built-in broker. Default: 1883.',
  portOfTheCalendar: 'Port of the calendar for phones. Default: 8422.',
  portOfThePagesOnlyThis: 'Port of the pages. Only this computer can open them. Default: 8420.',
  examplesOfServe: (settingsHelp: Word) => `
Examples:
  stillwell serve
  stillwell serve --listen 192.168.1.20 --data /srv/alder-bench

A settings file that sends mail to Anna when something is wrong:
  {"notices": [{"name": "Anna", "mail": {"to": "anna@alder-bench.example"}}],
   "smtp": {"host": "mail.alder-bench.example", "from": "wells@alder-bench.example"}}

${settingsHelp}`,
  endingSaving: 'Stopping: saving the state.',
  pages: (url: Word) => `Pages: ${url}`,
  builtInBrokerPort: ({ brokerPort, options }: Record<'brokerPort' | 'options', Word>) =>
    `Built-in broker: port ${brokerPort}. To create a password for a node: stillwell node add NAME${options}`,
  calendarForPhonesPort: ({ host, port, server }: Record<'host' | 'port' | 'server', Word>) =>
    `Calendar for phones: ${host} port ${port}. To create its address, open the "Due" page, or: stillwell due --subscribe${server}`,
  noNodeHasSentAnything: 'No node has sent anything yet. To see simulated wells first: stillwell demo',
  settingsNameAnExternalBroker: 'Cannot use --broker-port: the settings name an external broker',
  refused: 'Refused',
  serverMustBeAnAddress: ({ address, defaultServer }: Record<'address' | 'defaultServer', Word>) =>
    `Cannot reach ${address}: --server must be an address such as ${defaultServer}`,
  answeredButNot: ({ address, status }: Record<'address' | 'status', Word>) =>
    `${address} answered ${status}, but it is not a Stillwell server`,
};
