/** Texts of settings: what each is for, and what is wrong with them. */
type Word = string | number;

export const settingsTexts = {
  defaultOfASetting: (value: Word) => `Default: ${value}.`,
  environmentOfASetting: (variable: Word) => `Environment: ${variable}.`,
  all: 'all',
  none: 'none',
  mustBeANumber: ({ min, max }: Record<'min' | 'max', Word>) => `must be a number from ${min} to ${max}`,
  mustBeAWholeNumber: ({ min, max }: Record<'min' | 'max', Word>) =>
    `must be a whole number from ${min} to ${max}`,
  mustBeOneOf: (options: Word) => `must be one of ${options}`,
  mustBeAList: (max: Word) => `must be a list of at most ${max} items`,
  mustBeAnObject: 'must be an object in braces',
  mustBeAFile: 'must be the path of a file',
  mustBeAHost: 'must be a host name or an address',
  mustStandWithBrokerUrl: 'needs broker.url: it applies to an external broker',
  mustNotStandBesideBroker: 'must not be used together with broker.builtIn',
  mustHoldNoUser: 'must hold no user name or password: they belong in username and passwordFile',
  mustStandWithAnMqtts: 'needs an mqtts or wss address',
  mustComeWithItsOther: 'must be given together with the other one: certFile and keyFile',
  mustBeUnlikeTheOther: 'must differ from the other names: sent notices are recorded by name',
  mustHoldAtLeastOne: (channelNames: Word) => `must hold at least one of ${channelNames}`,
  isNotKnownInTheEnvironment: ({ name, known }: Record<'name' | 'known', Word>) =>
    `Cannot read settings: unknown variable ${name}; known variables: ${known}`,
  folderForTheDatabase: 'Folder for the database and documents.',
  firstPartOfEveryTopic: 'First part of every topic.',
  whereNodesSendTheBuilt: 'Broker that nodes publish to: the built-in one, or one that you already run.',
  builtInBroker: 'The built-in broker. It is used unless broker.url is given.',
  addressItListensOnAnother:
    'Address it listens on. An address other than loopback opens it to nodes with a credential.',
  portItListens: 'Port it listens on.',
  yourOwnBrokerMqttMqtts: 'Your own broker: mqtt://, mqtts://, ws:// or wss://.',
  userNameOnYourOwn: 'User name on your own broker.',
  fileThatHoldsItsPassword: 'File with its password. Or set STILLWELL_BROKER_PASSWORD.',
  certificateAuthorityOfYourOwn: 'Certificate authority of your own broker, if the system does not know it.',
  clientCertificateWhereYourBroker: 'Client certificate, if your broker requires one.',
  keyOfTheClientCertificate: 'Key of the client certificate.',
  clientIdentifierTwoServers: 'Client identifier. Two servers on one broker need different ones.',
  forMqttForMqtt: '5 for MQTT 5, 4 for MQTT 3.1.1.',
  listenBesideAnotherServer: 'true: listen alongside another server and never answer nodes.',
  pages: 'The pages.',
  addressOfThePagesThis: 'Address of the pages. Only this computer can open them.',
  portOfThePages: 'Port of the pages.',
  calendarOfChecksForPhones:
    'The calendar of checks for phones on the farm’s own network. It answers only at the address that the pages create.',
  addressItListens: 'Address it listens on. On loopback the calendar stays off.',
  whereTheBuiltInBroker: 'the address of the built-in broker',
  howLongThingsAreKept: 'How long things are kept.',
  daysThatRawReadings: 'Days that raw readings are kept.',
  daysThatCyclesDailyFigures:
    'Days that cycles, daily figures, baselines, ended alarms and sent notices are kept.',
  daysThatRefusedMessages: 'Days that refused messages are kept.',
  falseAlarmsAYear:
    'False alarms per year at one well that may occur by chance. A lower number detects small changes later. A card can set its own number.',
  usOrMetricUnits: 'us (psi, gallons, feet) or metric (kPa, liters, meters).',
  whoGetsNoticesAList: (channelNames: Word) =>
    `Who gets notices. A list; each entry has a name and at least one channel: ${channelNames}.`,
  whatThisRecipientIsCalled: 'Name of this recipient.',
  whichAlarmsNowSoonNote: 'Priorities of the alarms to send: now, soon, note.',
  nowSoon: 'now, soon',
  onlyTheseWells: 'Only these wells.',
  cardFilesOfWells: 'Card files of wells, a list.',
  folderEveryJson: 'Folder of card files: every .json in it is a card.',
  settingsAreInOneJson:
    'Settings are in one JSON file: .stillwell/settings.json, or the one in STILLWELL_SETTINGS.',
  environmentOverridesTheFilePaths:
    'The environment overrides the file. Paths are relative to the folder where the server starts.',
  wellMustHaveOneCard: ({ path, otherPath, well }: Record<'path' | 'otherPath' | 'well', Word>) =>
    `Cannot read card ${path}: a well must have only one card, and ${otherPath} is also a card of "${well}"`,
  cardsdirMustBeAFolder: (folder: Word) =>
    `Cannot read settings: cardsDir must be a folder that can be read: ${folder}`,
  cannotReadCard: 'Cannot read card:',
  cannotReadCardAt: (path: Word) => `Cannot read card ${path}:`,
  itIsLargerThanBytes: (maxFileBytes: Word) => `it is larger than ${maxFileBytes} bytes`,
  noReasonGiven: 'no reason given',
  fileMustBeThere: ({ path, reason }: Record<'path' | 'reason', Word>) =>
    `Cannot read card ${path}: the file must exist and contain JSON: ${reason}`,
  fileMustBeAtMost: ({ maxFileBytes, path, size }: Record<'maxFileBytes' | 'path' | 'size', Word>) =>
    `Cannot read settings: the file must be at most ${maxFileBytes} bytes: ${path} has ${size}`,
  cannotReadSettings: (problem: Word) => `Cannot read settings: ${problem}`,
  theyHaveNoReadableForm: 'Cannot read settings: unknown format',
  fileMustBeJson: (jsonErrorPosition: Word) =>
    `Cannot read settings: the file must be JSON: ${jsonErrorPosition}`,
  fileMustBeAnObject: 'Cannot read settings: the file must be an object in braces',
  beforeItsEnd: 'at its end',
  itBreaksOff: (rest: Word) => `it goes wrong ${rest}`,
  itBreaksOffSomewhere: 'it goes wrong',
  readSettings: 'read settings',
  mustBeSettings: 'must be settings',
  isNotKnownKnown: (knownKeys: Word) => `is unknown; known names: ${knownKeys}`,
  object: 'an object',
  listOfValues: 'a list',
  nothing: 'nothing',
  fromVariable: (variable: Word) => ` (from ${variable})`,
  notShown: '(not shown)',
  notShownItMayHold: '(not shown: it may hold a password)',
  mustBeAnAddressSuch: 'must be an address such as mqtts://broker.example:8883 (mqtt, mqtts, ws or wss)',
  mustBeAUserName: 'must be a user name',
  mustBeToOfLetters: 'must be 1 to 128 characters: letters, digits, - and _',
  mustBeAName: 'must be a name of 1 to 60 characters',
  mustHoldAtLeastOneOf: 'must hold at least one of now, soon, note',
  mustBeTheName: 'must be the name of a well',
  mustBeThePath: 'must be the path of a folder',
  mustBeTopicLevels: 'must be topic levels of letters, digits, - and _ with / between them',
  mustBeTrueOrFalse: 'must be true or false',
  mustNameAVariable: ({ key, variable }: Record<'key' | 'variable', Word>) =>
    `Cannot read settings: ${key} must name a variable that is set: ${variable}`,
  ruleOfASecret: ({ key, rule }: Record<'key' | 'rule', Word>) =>
    `Cannot read settings: ${key} ${rule}: (not shown)`,
  secretIsLargerThanBytes: (maxSecretBytes: Word) => `it is larger than ${maxSecretBytes} bytes`,
  cannotReadTheFile: ({ key, path }: Record<'key' | 'path', Word>) =>
    `Cannot read settings: ${key} must be a file that can be read: ${path}`,
  mustHoldOneLine: ({ key, path }: Record<'key' | 'path', Word>) =>
    `Cannot read settings: ${key} must hold one line: ${path}`,
};
