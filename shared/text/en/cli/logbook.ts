/** Texts of the commands that read and write what a well’s logbook holds. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const logbookCommandTexts = {
  serverMustBeAnAddress: (server: Word) =>
    `Cannot reach the server: --server must be an address such as http://127.0.0.1:8420: ${server}`,
  cannotReachTheServer: (address: Word) =>
    `Cannot reach the server at ${address}. Is it running? Another address: --server URL`,
  keepDocumentsOfAWell:
    'Save documents of a well: manuals, receipts, the well log and photos. A document is PDF, JPEG, PNG, WebP, HEIC or plain text, at most 25 MiB. Photograph the inside of an electrical box only if you already have it open and locked out. Do not open a box for a photo. The server must be running.',
  listDocumentsNewestFirst: 'List documents, newest first.',
  nameOfTheWell: 'Name of the well.',
  listTheDocumentsThatContain: 'List the documents that contain all of these words.',
  keepDocumentsWithAWell: 'Save documents of a well.',
  filesToKeep: 'Files to save.',
  subjectSuchAsPump: 'Subject, such as "pump".',
  titleDefaultTheName: 'Title. Default: the name of the file.',
  examplesOfDocumentAdd: '\nExample:\n  stillwell document add mill well-log.pdf --about "well log"',
  writeADocument: 'Write a document to a file.',
  titleOfTheDocument: 'Title of the document, or its hash as "document list" prints it.',
  fileToMakeAFile: 'File to create. An existing file is not overwritten.',
  examplesOfDocumentGet: '\nExample:\n  stillwell document get mill well-log.pdf copy.pdf',
  noDocumentsOfYet: (well: Word) => `No documents for ${well} yet.`,
  noneOfDocumentsContainsThese: (documents: number) =>
    documents === 1
      ? 'The only document does not contain these words.'
      : `None of ${documents} documents contains all of these words.`,
  nameNamesOneDocument: 'Cannot save the files: --name applies to one document, but several files were given',
  hasNoSuchDocumentTry: ({ wanted, well }: Record<'wanted' | 'well', Word>) =>
    `Cannot get ${wanted}: ${well} has no such document. Try: stillwell document list ${well}`,
  hasSeveralSuchDocumentsName: ({ wanted, well }: Record<'wanted' | 'well', Word>) =>
    `Cannot get ${wanted}: ${well} has several such documents. Give its hash instead of its title`,
  bytes: ({ out, bytesCount }: { out: string; bytesCount: number }) =>
    `${out}: ${formatCount(bytesCount, 'byte')}`,
  saved: ({ name, hash }: Record<'name' | 'hash', Word>) => `Saved: ${name}, ${hash}`,
  serverAnsweredWithStatus: (status: Word) => `The server answered with status ${status}`,
  writeEverythingKnownAbout:
    'Write everything known about a well to one file, for its next owner or another server. A .zip holds a page that opens without a server, the record, tables and documents. An .html holds the page and the record, without documents. The server may be running.',
  fileToMakeZip:
    'File to create (.zip or .html). An existing file is not overwritten. - writes a ZIP to stdout.',
  usOrMetric: 'us or metric, for the page. Default: the units of the card.',
  askARunningServerInstead: 'Ask a running server instead of reading the data folder.',
  examplesOfExport:
    '\nExamples:\n  stillwell export mill mill.zip\n  stillwell export mill mill.html --units metric',
  itsNameMustEnd: (out: Word) => `Cannot write ${out}: its name must end in .zip or .html`,
  thereIsNoDatabase: ({ well, dataDir }: Record<'well' | 'dataDir', Word>) =>
    `Cannot export ${well}: there is no database in ${dataDir}. Name another folder with --data`,
  thereIsNoSuchWell: ({ well, dataDir }: Record<'well' | 'dataDir', Word>) =>
    `Cannot export ${well}: there is no such well in ${dataDir}`,
  bytesEverythingKnownAbout: ({ out, bytes, well }: { bytes: number } & Record<'out' | 'well', string>) =>
    `${out}: ${formatCount(bytes, 'byte')}, everything known about ${well}.`,
  importAWell:
    'Import a well from another server’s export. No existing record is changed; entries and events are recognized by their ids. If a server is running, it does the import. Otherwise the command changes the data folder directly.',
  fileThatStillwellExportMade: 'File that "stillwell export" made (.zip or .html).',
  wellOfThisNameHere:
    'The existing well with this name is the same well, although the export does not show it.',
  addressOfTheRunningServer: 'Address of the running server. Default: the one in the settings.',
  examplesOfImport: '\nExample:\n  stillwell import mill.zip',
  ifItIsAddSame: (problem: Word) => `${problem} To confirm, add --same.`,
  labelsWritten: ({ path, count, sheet }: { count: number } & Record<'path' | 'sheet', string>) =>
    `${path}: ${formatCount(count, 'label')}, ${sheet}`,
  labelsOf: (well: Word) => `Labels, ${well}`,
  printLabelsForTankSwitch:
    'Print labels for tank, switch, control box, panel and wellhead. The code on each label holds its facts; any phone reads it without a network. Without a file, the command lists the facts. The server must be running.',
  fileToMakeHtml:
    'File to create: .html for pages that print at actual size, .svg for one file per sheet. An existing file is not overwritten.',
  sheetToPrint: 'Sheet to print on, from the list below.',
  onlyTheseLabelsSeparated: (labelKinds: Word) => `Only these labels, separated by commas: ${labelKinds}.`,
  firstFreePlaceOnLabel: 'First unused label on the sheet, counted row by row. Default: 1.',
  sheetsAndExampleOfLabels: ({ sheets, id, metricId }: Record<'sheets' | 'id' | 'metricId', Word>) => `
Sheets:
${sheets}
Default: ${id} with US units, ${metricId} with metric units.

Example:
  stillwell labels mill mill-labels.html
Print at actual size (100 %).`,
  toFillInByHand: (title: Word) => `${title}: to fill in by hand`,
  itMustBeOne: ({ sheets, id }: Record<'sheets' | 'id', Word>) =>
    `Cannot read --sheet: it must be one of ${sheets}: ${id}`,
  labelsOfThisWell: ({ unknown, list }: Record<'unknown' | 'list', Word>) =>
    `Cannot print a label for ${unknown}: the labels of this well are ${list}`,
  noRoomAtThisSize: ({ title, facts }: Record<'title' | 'facts', Word>) =>
    `${title}: no room at this size for ${facts}`,
  itsNameMustEndInHtml: (out: Word) => `Cannot write ${out}: its name must end in .html or .svg`,
  listTheLogbook:
    'List the logbook of a well, add an entry, or void one. An entry is never changed or deleted. The server must be running.',
  listAllEntries: 'List all entries in the order in which they were made, each with its id.',
  listOneKindOfEntry: 'List one kind of entry: reading, check, water-test, work, paper, note …',
  addANoteAboutWhat: 'Add a note about something that you noticed.',
  note: 'The note.',
  eventThatCalls: (waterEvents: Word) =>
    `An event that calls for a water test at once. One of ${waterEvents}.`,
  eventsAndExampleOfLogNote: (waterEvents: Word) => `
Events:
${waterEvents}

Example:
  stillwell log note mill "Creek over the yard" --event flood --on 2026-11-02`,
  recorded: 'Recorded.',
  voidAnEntry: 'Void an entry made by mistake. It stays in the logbook, marked as void.',
  idOfTheEntry: 'Id of the entry, as "log list" prints it.',
  reason: 'Reason.',
  voidedTheEntryStays: 'Voided. The entry stays in the logbook, marked as void.',
  noEntriesOfYet: (well: Word) => `No entries for ${well} yet.`,
  kindOf: ({ kind, id }: Record<'kind' | 'id', Word>) => `${kind} of ${id}`,
  by: (by: Word) => `by ${by}`,
  void: 'void',
  tellStillwellWhatItsSensors:
    'Tell Stillwell what its sensors cannot know: guests, irrigation, more livestock, a shutdown. Write one line with an end date: "watering the new lawn until the 20th", "laid up until 15 April". Extra use that you announced raises no alarm. While a well is laid up, its alarms are suppressed and its checks are on hold. Without a line, the earlier notes are listed. The server must be running.',
  noteWithItsEnd: 'The note with its end date.',
  wellIsShutDownDefault: 'The well is shut down. Default: recognized from the words.',
  useOfWaterDiffersDefault: 'Water use will be unusual. Default: recognized from the words.',
  wellIsOutOfService: 'The well is out of service until --in-service.',
  wellIsInServiceAgain: 'The well is in service again.',
  examplesOfNote:
    '\nExamples:\n  stillwell note mill "guests until Sunday"\n  stillwell note north-paddock "40 head on this pasture for 3 weeks"\n  stillwell note orchard --out-of-service',
  lineOutOfService:
    'Cannot save the note: give only one of a line, --out-of-service and --in-service, and only one of --laid-up and --expected',
  isOutOfServiceAlarms: (well: Word) =>
    `${well} is out of service. Alarms are suppressed until it is in service again.`,
  isInServiceAgain: (well: Word) => `${well} is in service again.`,
  readTheNote: ({ line, problem }: Record<'line' | 'problem', Word>) =>
    `Cannot read the note "${line}": ${problem}`,
  wellIsLaidUp: 'The well is laid up, and its alarms are suppressed',
  otherUseThanNormal: 'Unusual use is expected',
  understoodUntil: ({ text, means, untilWords }: Record<'text' | 'means' | 'untilWords', Word>) =>
    `Read as: "${text}". ${means} until ${untilWords}.`,
  until: (until: Word) => `until ${until}`,
  wasUntil: (until: Word) => `was until ${until}`,
  outOfService: 'out of service',
  backInService: 'back in service',
  noNotesOfYet: (well: Word) => `No notes for ${well} yet.`,
  recordAndListReadings:
    'Record and list readings that a person took: levels, precharge, flow, amps and others. Readings inside an electrical box come from a qualified person who already has it open and locked out. Do not open a box for a reading. The server must be running.',
  listReadingsByKindOldest: 'List readings by kind, oldest first. * marks the reference reading.',
  recordAReading: 'Record a reading.',
  oneOf: (readingWords: Word) => `One of ${readingWords}.`,
  valueWithItsUnit: 'The value with its unit. A flow can be a volume and a time: "5 gal in 48 s".',
  pumpIfTheWellHas: 'Pump, if the well has several, such as p2.',
  placeSuchAsGardenTap: 'Place, such as "outdoor faucet" or "yellow to black".',
  instrumentSuchAsLevelTape: 'Instrument, such as "water level meter".',
  makeItTheReferenceLater: 'Make it the reference: later readings are compared with it.',
  examplesOfReadingAdd:
    '\nExamples:\n  stillwell reading add mill static-level "41 ft" --with "water level meter" --pin\n  stillwell reading add mill flow "5 gal in 48 s" --where "outdoor faucet"',
  itMustBeAVolume: (text: Word) =>
    `Cannot read "${text}": it must be a volume and a time, such as "5 gal in 48 s"`,
  noReadingsOfYet: (well: Word) => `No readings for ${well} yet.`,
  fromTheReference: (difference: Word) => `${difference} from the reference`,
  recordedReading: ({ title, value }: Record<'title' | 'value', Word>) => `Recorded: ${title}, ${value}.`,
  ofPump: (pump: Word) => `pump ${pump}`,
  with: (instrument: Word) => `with ${instrument}`,
  line: ({ path, line, what }: Record<'path' | 'line' | 'what', Word>) =>
    `Cannot read ${path}: line ${line}: ${what}`,
  itMustNameTheColumns: ({ required, optional }: Record<'required' | 'optional', string>) =>
    optional === ''
      ? `it must name the columns ${required}`
      : `it must name the columns ${required}, and can name ${optional}`,
  itHasCells: (cells: number, columns: number) =>
    `it has ${formatCount(cells, 'cell')}, but the first line has ${columns}`,
  columnIsEmpty: (empty: Word) => `column ${empty} is empty`,
  stillOpen: 'still open',
  beforeAndAfterVisit: ({ well, when, closed }: Record<'well' | 'when' | 'closed', Word>) =>
    `Before and after, ${well}: visit of ${when}; ${closed}`,
  noWorkIsRecorded: '  No work is recorded.',
  pump: (pump: Word) => `Pump ${pump}`,
  normalBefore: (measure: Word) => `Normal before: ${measure}.`,
  beforeAfter: ({ before, after }: Record<'before' | 'after', Word>) => `before: ${before}; after: ${after}.`,
  closedAt: (when: Word) => `closed ${when}`,
  open: 'open',
  partsUsed: (parts: Word) => `parts: ${parts}`,
  touched: (parts: Word) => `affected ${parts}`,
  documentCount: (count: number) => formatCount(count, 'document'),
  forReasons: (reasons: Word) => `for: ${reasons}`,
  always: (parts: Word) => `Always: ${parts}`,
  recordedWork: (work: Word) => `Recorded: ${work}`,
  runsAndWholeDaysUp: ({ days, reportCaveat }: { days: number; reportCaveat: string }) =>
    `Runs and whole days up to ${formatCount(days, 'day')} on either side, or to the next visit. ${reportCaveat}`,
  doneBy: (doneBy: Word) => `done by ${doneBy}`,
  recordedBy: (by: Word) => `recorded by ${by}`,
  openAndCloseVisits:
    'Open and close visits, and record the work. While a visit is open, alarms are suppressed and nothing is learned. The server must be running.',
  listAllVisitsWithTheir: 'List all visits with their work, newest first.',
  printThePartsListWhat: 'Print the parts list: what to bring, from the card and the active alarms.',
  printTheBeforeAfterReport: 'Print the before/after report of a visit: runs and days on either side of it.',
  idOfTheVisit: 'Id of the visit, as "visit list" prints it. Default: the last visit.',
  openAVisitWhenYou: 'Open a visit when you start work.',
  examplesOfVisitOpen: '\nExample:\n  stillwell visit open mill --by "Tom, Larch Wells"',
  recordWorkThatWasDone: 'Record work that was done in the open visit, or on another day with --on.',
  whatWasDone: 'What was done.',
  partThatWasInstalledRepeat: 'A part that was installed. Repeat the option for each.',
  whatTheWorkTouchedRepeat: (affectedParts: Word) =>
    `Part affected by the work. Repeat the option for each. One of ${affectedParts}.`,
  personOrFirmThatDid: 'Person or company that did the work.',
  examplesOfVisitWork:
    '\nExample:\n  stillwell visit work mill "New pump set at 180 ft" --part "1 hp pump" --touched pump',
  closeTheVisitActiveAlarms: 'Close the visit. This clears active alarms and prints the before/after report.',
  learnAnewWhatIsNormal: 'Learn normal values again. Default after work on pump, motor, tank or switch.',
  keepTheBaseline: 'Keep the baseline.',
  examplesOfVisitClose: '\nExample:\n  stillwell visit close mill --new-baseline',
  noVisitsToYet: (well: Word) => `No visits to ${well} yet.`,
  newBaseline: 'new baseline',
  notKnown: (unknown: Word) => `  not known: ${unknown}`,
  oneIsOpenAlready: ({ well, openedByWords }: Record<'well' | 'openedByWords', Word>) =>
    `Cannot open a visit to ${well}: one is already open${openedByWords}`,
  visitToIsOpenAlarms: ({ well, cautions }: Record<'well' | 'cautions', Word>) =>
    `A visit to ${well} is open. Alarms are suppressed until you close it.\n${cautions}`,
  openedBy: (openedBy: Word) => `, opened by ${openedBy}`,
  noVisitToIsOpen: (well: Word) =>
    `Cannot record work: no visit to ${well} is open. Open one, or give the day of the work with --on`,
  newBaselineAndKeepBaseline: 'Cannot close the visit: give only one of --new-baseline and --keep-baseline',
  noneIsOpen: (well: Word) => `Cannot close a visit to ${well}: none is open`,
  visitToIsClosed: ({ well, closeWords }: Record<'well' | 'closeWords', Word>) =>
    `The visit to ${well} is closed. ${closeWords}`,
  baselineIsKept: 'The baseline is kept.',
  becauseTheWorkTouched: (affectedParts: Word) => `, because the work affected ${affectedParts}`,
  newBaselineIsLearned: (why: Word) => `A new baseline is learned${why}.`,
  thereWasNoVisit: (well: Word) => `Cannot print a report: there has been no visit to ${well} yet`,
  hasNoVisitTryStillwell: ({ well, id }: Record<'well' | 'id', Word>) =>
    `Cannot print a report: ${well} has no visit ${id}. Try: stillwell visit list ${well}`,
  recordAndListWaterTests: (cautions: Word) =>
    `Record and list water tests. Each result is compared with the published limits. The server must be running. ${cautions}`,
  listAllTestsNewestFirst: 'List all tests, newest first, and what to test next.',
  recordTheResultsOfOne: 'Record the results of one test as in the laboratory’s report.',
  resultsWithTheirUnitSuch: 'Results with their unit, such as "Nitrate=2.1 mg/L as N".',
  readResultsFromATable: 'Read results from a table (.csv) with the columns analyte, value and unit.',
  laboratory: 'Laboratory.',
  samplePointSuchAsKitchen: 'Sample point, such as "kitchen tap".',
  reasonForTheTest: 'Reason for the test.',
  whenTheSampleWasDrawn: 'Date of the sample, such as 2026-11-30. Default: now.',
  examplesOfWaterAdd:
    '\nExamples:\n  stillwell water add mill "Nitrate=2.1 mg/L as N" "Total coliform=absent" "Lead=< 1 ug/L"\n  stillwell water add mill --results mill-water.csv --on 2026-11-02',
  resultMustBeGivenSuch:
    'Cannot record a water test: a result must be given, such as "Nitrate=2.1 mg/L as N", or --results FILE',
  /** Subjects of documents that are kept with an entry. */
  aboutNote: 'note',
  aboutReading: 'reading',
  aboutVisit: 'visit',
  waterTest: 'Water test',
  itMustBeAnAnalyte: (text: Word) =>
    `Cannot read "${text}": it must be an analyte and its result, such as "Nitrate=2.1 mg/L as N"`,
  recordedTheNextTest: (dueDate: Word) => `Recorded. The next test is due on ${dueDate}.`,
  noWaterTestsOfYet: (well: Word) => `No water tests for ${well} yet.`,
  nextTestIsDue: ({ dueDate, reasons }: Record<'dueDate' | 'reasons', Word>) =>
    `The next test is due on ${dueDate}: ${reasons}`,
  notTestedWithinAYear: (missingYearly: Word) => `Not tested within a year: ${missingYearly}.`,
  noLimitIsKeptHere: 'No published limit here.',
  readOn: ({ reason, on }: Record<'reason' | 'on', Word>) => `Cannot read --on: ${reason}: ${on}`,
  oneEntryMayHaveAt: ({ pathsCount, maxDocuments }: Record<'pathsCount' | 'maxDocuments', number>) =>
    `Cannot save ${formatCount(pathsCount, 'file')}: one entry can have at most ${maxDocuments}`,
  itIsEmpty: (path: Word) => `Cannot save ${path}: it is empty`,
};
