/**
 * What can go wrong between the store and the world, each as one sentence that says what to do.
 * Anything else that SQLite says is a fault of ours and is passed on with its own words.
 */
export type StoreFault =
  | 'disk-full'
  | 'damaged'
  | 'newer-version'
  | 'foreign-file'
  | 'in-use'
  | 'read-only'
  | 'cannot-open'
  | 'io'
  | 'invalid-use';

export class StoreError extends Error {
  readonly fault: StoreFault;

  constructor(fault: StoreFault, sentence: string, cause?: unknown) {
    super(sentence, cause === undefined ? undefined : { cause });
    this.name = 'StoreError';
    this.fault = fault;
  }
}

interface FaultMessage {
  fault: StoreFault;
  text: (path: string) => string;
}

const DAMAGED: FaultMessage = {
  fault: 'damaged',
  text: (path) =>
    `the file ${path} is damaged. Stop the server, keep a copy of the file and of those beside it, then put back a backup`,
};
const IN_USE: FaultMessage = {
  fault: 'in-use',
  text: (path) =>
    `the file ${path} is in use by another process. Stop that one, or give this one a file of its own`,
};
const READ_ONLY: FaultMessage = {
  fault: 'read-only',
  text: (path) =>
    `the file ${path} can't be written. Give the server's user the right to write to it and its folder`,
};

/**
 * SQLite's result codes (sqlite.org/rescode.html) by their beginning, the longest that fits first.
 */
const FAULT_MESSAGES: readonly (readonly [string, FaultMessage])[] = [
  [
    'SQLITE_FULL',
    {
      fault: 'disk-full',
      text: (path) =>
        `the disk that holds ${path} is full. Make room; what was kept is safe, and nodes send the rest again`,
    },
  ],
  ['SQLITE_CORRUPT', DAMAGED],
  ['SQLITE_NOTADB', DAMAGED],
  ['SQLITE_IOERR_CORRUPTFS', DAMAGED],
  ['SQLITE_BUSY', IN_USE],
  ['SQLITE_LOCKED', IN_USE],
  ['SQLITE_READONLY', READ_ONLY],
  ['SQLITE_PERM', READ_ONLY],
  [
    'SQLITE_CANTOPEN',
    {
      fault: 'cannot-open',
      text: (path) =>
        `the file ${path} can't be opened. See that its folder is there and that the server's user may write to it`,
    },
  ],
  [
    'SQLITE_IOERR',
    {
      fault: 'io',
      text: (path) =>
        `the disk that holds ${path} does not read or write. Look at the disk and its cable, then start again`,
    },
  ],
];

function errorCode(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/**
 * The error to throw on: a StoreError with `Cannot <action>: <sentence>` where we know the fault,
 * else what came.
 */
export function toStoreError(action: string, path: string, error: unknown): unknown {
  if (error instanceof StoreError) return error;
  const code = errorCode(error);
  const message = FAULT_MESSAGES.find(([start]) => code.startsWith(start))?.[1];
  return message ? new StoreError(message.fault, `Cannot ${action}: ${message.text(path)}.`, error) : error;
}

/**
 * Bytes of ours that do not read back: the same sentence as for a file that SQLite finds damaged.
 */
export function damagedError(action: string, path: string, cause: unknown): StoreError {
  return new StoreError('damaged', `Cannot ${action}: ${DAMAGED.text(path)}.`, cause);
}
