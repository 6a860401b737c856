/**
 * What can go wrong between the store and the world, each as one sentence that says what to do.
 * Anything else that SQLite says is a fault of ours and is passed on with its own words.
 */
import { texts } from './texts.ts';

/** What the store was about to do. */
export type StoreAction = keyof ReturnType<typeof texts>['actions'];

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

/** What an error tells: its fault, and what can be done about it. */
interface FaultMessage {
  fault: StoreFault;
  text: 'damaged' | 'inUse' | 'readOnly' | 'diskFull' | 'cannotOpen' | 'diskFailed';
}

const DAMAGED: FaultMessage = { fault: 'damaged', text: 'damaged' };
const IN_USE: FaultMessage = { fault: 'in-use', text: 'inUse' };
const READ_ONLY: FaultMessage = { fault: 'read-only', text: 'readOnly' };

/**
 * SQLite's result codes (sqlite.org/rescode.html) by their beginning, the longest that fits first.
 */
const FAULT_MESSAGES: readonly (readonly [string, FaultMessage])[] = [
  ['SQLITE_FULL', { fault: 'disk-full', text: 'diskFull' }],
  ['SQLITE_CORRUPT', DAMAGED],
  ['SQLITE_NOTADB', DAMAGED],
  ['SQLITE_IOERR_CORRUPTFS', DAMAGED],
  ['SQLITE_BUSY', IN_USE],
  ['SQLITE_LOCKED', IN_USE],
  ['SQLITE_READONLY', READ_ONLY],
  ['SQLITE_PERM', READ_ONLY],
  ['SQLITE_CANTOPEN', { fault: 'cannot-open', text: 'cannotOpen' }],
  ['SQLITE_IOERR', { fault: 'io', text: 'diskFailed' }],
];

function errorCode(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/**
 * The error to throw on: a StoreError with `Cannot <action>: <sentence>` where we know the fault,
 * else what came.
 */
export function toStoreError(action: StoreAction, path: string, error: unknown): unknown {
  if (error instanceof StoreError) return error;
  const code = errorCode(error);
  const message = FAULT_MESSAGES.find(([start]) => code.startsWith(start))?.[1];
  return message ? faultError(message, action, path, error) : error;
}

/**
 * Bytes of ours that do not read back: the same sentence as for a file that SQLite finds damaged.
 */
export function damagedError(action: StoreAction, path: string, cause: unknown): StoreError {
  return faultError(DAMAGED, action, path, cause);
}

function faultError(
  { fault, text }: FaultMessage,
  action: StoreAction,
  path: string,
  cause: unknown,
): StoreError {
  const sentence = texts().cannot({ action: texts().actions[action], reason: texts()[text](path) });
  return new StoreError(fault, sentence, cause);
}

/** "Cannot open the store: <reason>" */
export function cannotOpen(reason: string): string {
  return texts().cannot({ action: texts().actions.open, reason });
}
