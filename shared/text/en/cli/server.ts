/** Texts of the server: its log, its answers to what people ask of it, an import. */
import { formatCount } from '../format.ts';

type Word = string | number;

export const serverTexts = {
  dataFolderIsAFolder: (dataDir: Word) =>
    `The data folder ${dataDir} is shared by all users of this computer. Choose a folder for Stillwell alone.`,
  closedTheDataFolder: ({ dataDir, closed }: Record<'dataDir' | 'closed', Word>) =>
    `Removed other users’ access to ${closed} files and folders in the data folder ${dataDir}.`,
  cannotCloseFilesAndFolders: ({
    failedCount,
    dataDir,
    failed,
  }: Record<'failedCount' | 'dataDir' | 'failed', Word>) =>
    `Cannot remove other users’ access to ${failedCount} files and folders in ${dataDir}: ${failed}`,
  thereIsNoDocument: (lost: Word) => `Cannot save entry: unknown document ${lost}`,
  documentIsKeptBySending:
    'Cannot save entry: send the bytes of the document; hash, type and size must match them',
  whatItReplacesIsNo: 'Cannot save entry: the entry that it replaces is not in the logbook of this well',
  documentIsTooLarge: ({ name, maxDocumentBytes }: Record<'name' | 'maxDocumentBytes', Word>) =>
    `Cannot save ${name}: a document can have at most ${maxDocumentBytes} MiB`,
  itMustBeAPdf: (name: Word) =>
    `Cannot save ${name}: it must be a PDF, a JPEG, PNG, WebP or HEIC picture, or plain text. The content counts, not the file name`,
  itDidNotComeWhole: (name: Word) =>
    `Cannot save ${name}: the upload is incomplete, its end is missing. Send it again`,
  connectedTo: (url: Word) => `Connected to ${url}.`,
  wellsAreWatchedAll: (failed: Word) => `${failed}. The wells are still being watched.`,
  andMore: ({ more, from }: Record<'more' | 'from', Word>) => `And ${more} more from ${from}.`,
  unknownAddress: 'an unknown address',
  otherAddresses: 'other addresses',
  cannotKeepWhatNodesSaid: (rest: Word) => `Cannot save the last status of the nodes: ${rest}`,
  cannotUseTheCardFile: ({ path, problem }: Record<'path' | 'problem', Word>) =>
    `Cannot use the card ${path}: ${problem}`,
  noReasonKnown: 'no reason known',
  gaveUpNotifying: ({ whoAndHow, lastError }: Record<'whoAndHow' | 'lastError', Word>) =>
    `Gave up notifying ${whoAndHow}: ${lastError}`,
  notified: ({ whoAndHow, subject }: Record<'whoAndHow' | 'subject', Word>) =>
    `Notified ${whoAndHow}: ${subject}`,
  busy: ({ minutes, maxMs }: { minutes: number; maxMs: number }): string =>
    `This server is too busy: in the last ${minutes} minutes a task waited ${(maxMs / 1000).toFixed(1)} s, so an alarm can come late. Move it to a faster computer, or close other programs here.`,
  loopDelay: 'Delay between the time when a task was due and its start.',
  messagesThatCame: 'Messages received.',
  packsKept: 'Packs stored.',
  packsThatCameAgain: 'Duplicate packs.',
  readingsKept: 'Readings stored.',
  packsThatCameAfter: 'Packs that arrived after the settling time.',
  timesAWellWasRun: 'Reruns of wells for late packs or after a start.',
  commits: 'Commits.',
  timeSpentInCommits: 'Time spent in commits.',
  messagesRefusedByReasonSince: 'Messages refused, by reason, since the store was created.',
  namesThatNodesSpoke: 'Names used by nodes that are not allowed to publish for them, by node.',
  wellsWatched: 'Wells watched.',
  nodesKnown: 'Nodes known.',
  nodesConnectedToTheBuilt: 'Nodes connected to the built-in broker.',
  ourClock: 'Clock of the server.',
  wasNotKnownHere: (well: Word) => `${well} was added as a new well.`,
  wasKnownHereNothing: (well: Word) => `${well} already existed here; no existing record was changed.`,
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
  itIsWatchedHere:
    'It is monitored here, so the card here stays. Acts of the other server are kept as history.',
  itIsWatchedHereWithout:
    'It is monitored here without a card, so the card of the export is used. Acts of the other server are kept as history.',
  itsCardReads: ({ node, other }: Record<'node' | 'other', Word>) =>
    `Its card reads from ${node}, and so does ${other} here. If that is another box with the same name, change the card. Imported calibrations are kept as history only.`,
  didNotCome: ({ documents, missing }: Record<'documents' | 'missing', Word>) =>
    `Missing from the export: ${documents} (${missing}).`,
  thisMachineHasTooLittle: 'Cannot import: this computer has too little memory for the export',
  exportIsOfTheFuture: (untilMs: Word) =>
    `Cannot import: the export holds records dated ${untilMs}, which is in the future. Check the clock of this computer`,
  isOfAnotherWellHere: (foreignId: Word) => `Cannot import: ${foreignId} belongs to another well here`,
  thereIsAWellCalled: (well: Word) =>
    `There is already a well called ${well} here, and the export has no record in common with it. If it is the same well, confirm this, and the two records are merged.`,
  anotherOneIsBeingTaken: 'Cannot import: another import is running. Try again when it is done',
  cannotDoThis: 'Cannot do this',
  removeThoseThatAreGone: (commandOptions: Word) =>
    `Remove those that are gone: stillwell node forget NAME${commandOptions}`,
  oneServerTakesAtMost: ({ nodes, size, help }: Record<'nodes' | 'size' | 'help', Word>) =>
    `Cannot add a node: one server takes at most ${nodes}, and ${size} are known. ${help}`,
  oneServerWatchesAtMost: ({ wells, size, help }: Record<'wells' | 'size' | 'help', Word>) =>
    `Cannot add a well: one server monitors at most ${wells}, and ${size} are known. ${help}`,
  cannotForget: ({ node, why }: Record<'node' | 'why', Word>) => `Cannot forget ${node}: ${why}`,
  noNodeOfThisName: 'unknown node',
  cardOfReads: (reader: Word) => `the card of ${reader} reads from it. Change that card first`,
  itHasSentReadings: 'it has sent readings, and they are kept',
  somethingWasWrittenDown: (node: Word) => `the well ${node} has logbook entries, and they are kept`,
  cannotUseTheCard: ({ atMs, problem }: Record<'atMs' | 'problem', Word>) =>
    `Cannot use the card from ${atMs}: ${problem}`,
  messagesCouldNotBeKept: (messages: Word) =>
    `${messages} messages could not be saved when they arrived: asking for them again.`,
  keepingReadingsAgain: 'Saving readings again.',
  messageToWasLeftOut: ({ topic, errorMessage }: Record<'topic' | 'errorMessage', Word>) =>
    `A message to ${topic} was not published: ${errorMessage}`,
  cannotKeepAnythingNow: (before: Word) => `Cannot save anything now: ${before}`,
  tryAgain: 'Cannot do this now: try again',
  cannotKeepThis: (after: Word) => `Cannot save this: ${after}`,
  cannotUseWhatWasSaved: ({ well, atMs, why }: Record<'well' | 'atMs' | 'why', Word>) =>
    `Cannot use the saved state of ${well} from ${atMs}: ${why}`,
  cannotUseTheAct: ({ atMs, problem }: Record<'atMs' | 'problem', Word>) =>
    `Cannot use the act from ${atMs}: ${problem}`,
  faultOfOurOwnStopped: ({ well, fault }: Record<'well' | 'fault', Word>) =>
    `A program error stopped the monitoring of ${well}: ${fault}`,
};
