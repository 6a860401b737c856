/** Texts of the server: its log, its answers to what people ask of it, an import. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const serverTexts = {
  dataFolderIsAFolder: (dataDir: Word) =>
    `The data folder ${dataDir} is a folder for all users of this computer. Give the wells one of their own.`,
  closedTheDataFolder: ({ dataDir, closed }: Record<'dataDir' | 'closed', Word>) =>
    `Closed the data folder ${dataDir} to other users of this computer: ${closed} of its files and folders were open to them.`,
  cannotCloseFilesAndFolders: ({
    failedCount,
    dataDir,
    failed,
  }: Record<'failedCount' | 'dataDir' | 'failed', Word>) =>
    `Cannot close ${failedCount} files and folders of ${dataDir} to other users of this computer: ${failed}`,
  thereIsNoDocument: (lost: Word) => `Cannot keep entry: there is no document ${lost}`,
  documentIsKeptBySending:
    'Cannot keep entry: a document is kept by sending its bytes; hash, type and size must be theirs',
  whatItReplacesIsNo: 'Cannot keep entry: what it replaces is no entry of this well',
  documentIsTooLarge: ({ name, maxDocumentBytes }: Record<'name' | 'maxDocumentBytes', Word>) =>
    `Cannot keep ${name}: a document has ${maxDocumentBytes} MiB at most`,
  itMustBeAPdf: (name: Word) =>
    `Cannot keep ${name}: it must be a PDF, a JPEG, PNG, WebP or HEIC picture, or plain text, by its content and whatever its name says`,
  itDidNotComeWhole: (name: Word) =>
    `Cannot keep ${name}: it did not come whole, its end is missing. Send it again`,
  connectedTo: (url: Word) => `Connected to ${url}.`,
  wellsAreWatchedAll: (failed: Word) => `${failed}. Wells are watched all the same.`,
  andMore: ({ more, from }: Record<'more' | 'from', Word>) => `And ${more} more from ${from}.`,
  unknownAddress: 'an unknown address',
  otherAddresses: 'other addresses',
  cannotKeepWhatNodesSaid: (rest: Word) => `Cannot keep what nodes said last of themselves: ${rest}`,
  cannotUseTheCardFile: ({ path, problem }: Record<'path' | 'problem', Word>) =>
    `Cannot take the card ${path}: ${problem}`,
  noReasonKnown: 'no reason known',
  gaveUpNotifying: ({ whoAndHow, lastError }: Record<'whoAndHow' | 'lastError', Word>) =>
    `Gave up notifying ${whoAndHow}: ${lastError}`,
  notified: ({ whoAndHow, subject }: Record<'whoAndHow' | 'subject', Word>) =>
    `Notified ${whoAndHow}: ${subject}`,
  busy: ({ minutes, maxMs }: { minutes: number; maxMs: number }): string =>
    `This server is too busy: in the last ${minutes} minutes something waited ${(maxMs / 1000).toFixed(1)} s, so an alarm can come late. Move it to a faster computer, or close what else runs here.`,
  loopDelay: 'How late the server came to what was due.',
  messagesThatCame: 'Messages that came.',
  packsKept: 'Packs kept.',
  packsThatCameAgain: 'Packs that came again.',
  readingsKept: 'Readings kept.',
  packsThatCameAfter: 'Packs that came after the settling time.',
  timesAWellWasRun: 'Times a well was run again for late packs or after a start.',
  commits: 'Commits.',
  timeSpentInCommits: 'Time spent in commits.',
  messagesRefusedByReasonSince: 'Messages refused, by reason, since the store was made.',
  namesThatNodesSpoke: 'Names that nodes spoke for without a right to, by node.',
  wellsWatched: 'Wells watched.',
  nodesKnown: 'Nodes known.',
  nodesConnectedToTheBuilt: 'Nodes connected to the built-in broker.',
  ourClock: 'Our clock.',
  wasNotKnownHere: (well: Word) => `${well} was not known here and is now.`,
  wasKnownHereNothing: (well: Word) => `${well} was known here; nothing that was here was changed.`,
  importCounts: {
    entries: (n: number) => formatCount(n, 'entry', 'entries'),
    documents: (n: number) => formatCount(n, 'document'),
    acts: (n: number) => formatCount(n, 'act'),
    alarms: (n: number) => formatCount(n, 'alarm'),
    baselines: (n: number) => formatCount(n, 'baseline'),
    days: (n: number) => formatCount(n, 'day'),
    cycles: (n: number) => formatCount(n, 'cycle'),
  },
  added: (counts: Word) => `Added: ${counts}.`,
  nothingInTheExport: 'Nothing in the export was new.',
  itIsWatchedHere: 'It is watched here: the card here stays. Acts of the other server are kept as its past.',
  itIsWatchedHereWithout:
    'It is watched here without a card: the card of the export is used. Acts of the other server are kept as its past.',
  itsCardReads: ({ node, other }: Record<'node' | 'other', Word>) =>
    `Its card reads from ${node}, and so does ${other} here. Where that is another box of the same name, change the card; calibrations that came with it stand as past.`,
  didNotCome: ({ documents, missing }: Record<'documents' | 'missing', Word>) =>
    `${documents} did not come with it: ${missing}.`,
  thisMachineHasTooLittle: 'Cannot import: this computer has too little memory for the export',
  exportIsOfTheFuture: (untilMs: Word) =>
    `Cannot import: the export holds records of ${untilMs}, which is still to come. Check the clock of this computer`,
  isOfAnotherWellHere: (foreignId: Word) => `Cannot import: ${foreignId} is of another well here`,
  thereIsAWellCalled: (well: Word) =>
    `There is a well called ${well} here already, and the export has nothing in common with it. If it is the same well, say so, and the two records become one.`,
  anotherOneIsBeingTaken: 'Cannot import: another import is running. Try again when it is done',
  cannotDoThis: 'Cannot do this',
  removeThoseThatAreGone: (commandOptions: Word) =>
    `Remove those that are gone: stillwell node forget NAME${commandOptions}`,
  oneServerTakesAtMost: ({ nodes, size, help }: Record<'nodes' | 'size' | 'help', Word>) =>
    `Cannot take a further node: one server takes ${nodes} at most, and ${size} are known. ${help}`,
  oneServerWatchesAtMost: ({ wells, size, help }: Record<'wells' | 'size' | 'help', Word>) =>
    `Cannot take a further well: one server watches ${wells} at most, and ${size} are known. ${help}`,
  cannotForget: ({ node, why }: Record<'node' | 'why', Word>) => `Cannot forget ${node}: ${why}`,
  noNodeOfThisName: 'no node of this name is known',
  cardOfReads: (reader: Word) => `the card of ${reader} reads from it. Change that card first`,
  itHasSentReadings: 'it has sent readings, and they are kept',
  somethingWasWrittenDown: (node: Word) => `something was written down of the well ${node}, and it is kept`,
  cannotUseTheCard: ({ atMs, problem }: Record<'atMs' | 'problem', Word>) =>
    `Cannot use the card of ${atMs}: ${problem}`,
  messagesCouldNotBeKept: (messages: Word) =>
    `${messages} messages could not be kept when they came: asking for them again.`,
  keepingReadingsAgain: 'Keeping readings again.',
  messageToWasLeftOut: ({ topic, errorMessage }: Record<'topic' | 'errorMessage', Word>) =>
    `A message to ${topic} was left out: ${errorMessage}`,
  cannotKeepAnythingNow: (before: Word) => `Cannot keep anything now: ${before}`,
  tryAgain: 'Cannot do this now: try again',
  cannotKeepThis: (after: Word) => `Cannot keep this: ${after}`,
  cannotUseWhatWasSaved: ({ well, atMs, why }: Record<'well' | 'atMs' | 'why', Word>) =>
    `Cannot use what was saved of ${well} at ${atMs}: ${why}`,
  cannotUseTheAct: ({ atMs, problem }: Record<'atMs' | 'problem', Word>) =>
    `Cannot use the act of ${atMs}: ${problem}`,
  faultOfOurOwnStopped: ({ well, fault }: Record<'well' | 'fault', Word>) =>
    `A fault of our own stopped the watching of ${well}: ${fault}`,
};
