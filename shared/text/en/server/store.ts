/** Texts of the store: what it cannot do with its files, and what somebody can do about it. */
type Word = string | number;

export const storeTexts = {
  /** "Cannot read nodes: the file … is damaged. …" */
  cannot: ({ action, reason }: Record<'action' | 'reason', Word>) => `Cannot ${action}: ${reason}`,
  actions: {
    open: 'open the store',
    save: 'save',
    compress: 'compress readings',
    readJournal: 'read the journal',
    readReadings: 'read readings',
    readChart: 'read a chart',
    readChannels: 'read channels',
    readClockSteps: 'read clock steps',
    readNodes: 'read nodes',
    readCredentials: 'read credentials',
    readActs: 'read acts',
    readEntries: 'read entries',
    readImported: 'read what was imported',
    readPast: 'read the past of a well',
    readNews: 'read news',
    readCycles: 'read cycles',
    readDays: 'read days',
    readBaselines: 'read baselines',
    readAlarms: 'read alarms',
    readNotices: 'read notices',
    readRefused: 'read what was refused',
    readSnapshot: 'read a saved state',
    readMarks: 'read marks',
    readValue: 'read a value',
    measure: 'measure the store',
    maintain: 'maintain the store',
    close: 'close the store',
  },
  damaged: (path: Word) =>
    `the file ${path} is damaged. Stop the server, keep a copy of the file and of those beside it, then put back a backup.`,
  inUse: (path: Word) =>
    `the file ${path} is in use by another process. Stop that one, or give this one a file of its own.`,
  readOnly: (path: Word) =>
    `the file ${path} can’t be written. Give the server’s user the right to write to it and its folder.`,
  diskFull: (path: Word) =>
    `the disk that holds ${path} is full. Free some space. What was saved is safe, and nodes send the rest again.`,
  cannotOpen: (path: Word) =>
    `the file ${path} can’t be opened. Check that its folder exists and that the server’s user may write to it.`,
  diskFailed: (path: Word) =>
    `the disk that holds ${path} does not read or write. Check the disk and its cable, then start again.`,
  onlyServerSaves: 'only the server that holds the file saves readings.',
  isNoStore: (path: Word) => `${path} is a database of another program. Give another file.`,
  isNewer: ({ path, version, known }: Record<'path' | 'version' | 'known', Word>) =>
    `${path} was written by a newer version (tables ${version}, this one knows ${known}). Install that version again.`,
  noFolder: (folder: Word) => `its folder ${folder} does not exist. Make it, or give another.`,
  otherServer: (path: Word) =>
    `another server writes to ${path}. Stop that one, or give this one a file of its own.`,
  cannotReadDocument: (hash: Word) => `Cannot read document ${hash}: its content is not what was saved.`,
  fileOfThisName: (path: Word) =>
    `Cannot make the folder ${path}: there is a file of this name. Name another folder`,
  makeFolder: 'make the folder',
};
