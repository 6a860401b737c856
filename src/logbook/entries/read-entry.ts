/**
 * An entry as a person wrote it -> a checked one, or the key, the rule and the value that is wrong. Each kind has a file of its own that
 * knows its keys; here stand those that all have. An entry of the future is refused: nothing is written down before it happened.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { ParseContext } from '../../core/domain/parse-context.ts';
import {
  choiceAt,
  formatFirstIssue,
  rootContext,
  momentAt,
  nameAt,
  required,
  addIssue,
  textAt,
  fieldValue,
} from '../../core/domain/parse-context.ts';
import { ENTRY_KINDS, type Entry, type EntryKind } from './entry.ts';
import { checkBody } from './read-check.ts';
import { checkPlanBody } from './read-check-plan.ts';
import { noteBody } from './read-note.ts';
import { documentBody } from './read-document.ts';
import { readingBody } from './read-reading.ts';
import { waterTestBody } from './read-water-test.ts';
import { workBody } from './read-work.ts';
import { MAX_NOTE_LENGTH } from './limits.ts';

/** What a page or a command sends; the id and the time of writing come from the server. */
export interface EntryStamp {
  id: string;
  createdMs: number;
  by?: string;
}

/** The keys of a kind beside those that all have, and how they are looked through: what is wrong is noted in the look. */
export interface BodyReader {
  keys: readonly string[];
  check: (look: ParseContext) => void;
}

const COMMON_KEYS = ['kind', 'well', 'at', 'replaces'] as const;

const BODY_READERS: Record<EntryKind, BodyReader> = {
  reading: readingBody,
  check: checkBody,
  'check-plan': checkPlanBody,
  'water-test': waterTestBody,
  work: workBody,
  paper: documentBody,
  note: noteBody,
  struck: { keys: ['text'], check: (look) => void textAt(look, 'text', MAX_NOTE_LENGTH) },
};

/** A clock may be a little off; a day ahead is a slip of the pen. */
const MAX_AHEAD_MS = DAY_MS;
/** The first drilled wells with papers are of about this time. */
const OLDEST_MS = Date.UTC(1850, 0, 1);

/** The entry, or one line that names the key, the rule and the value. Never throws. */
export function readEntry(json: unknown, stamp: EntryStamp): { entry: Entry } | { problem: string } {
  const look = rootContext(json, undefined);
  const kind = required(look, 'kind', choiceAt(look, 'kind', ENTRY_KINDS));
  if (kind === undefined)
    return { problem: formatFirstIssue(look, 'entry') ?? 'Cannot read entry: kind must be given: nothing' };
  const { keys, check } = BODY_READERS[kind];
  rejectUnknownKeys(look, [...COMMON_KEYS, ...keys]);
  const well = required(look, 'well', nameAt(look, 'well')) ?? '';
  const atMs = momentAt(look, 'at') ?? stamp.createdMs;
  if (atMs > stamp.createdMs + MAX_AHEAD_MS || atMs < OLDEST_MS)
    addIssue(look, 'at', 'must lie in the past, and not before 1850');
  const replaces = textAt(look, 'replaces', 80);
  if (kind === 'struck') required(look, 'replaces', replaces);
  check(look);
  const problem = formatFirstIssue(look, 'entry');
  if (problem !== undefined) return { problem };
  return {
    entry: {
      id: stamp.id,
      well,
      kind,
      atMs,
      createdMs: stamp.createdMs,
      ...(stamp.by !== undefined && { by: stamp.by }),
      ...(replaces !== undefined && { replaces }),
      body: pickBody(look, keys),
    },
  };
}

function rejectUnknownKeys(look: ParseContext, keys: readonly string[]): void {
  for (const key of Object.keys(look.fields))
    if (!keys.includes(key)) addIssue(look, key, `is not known here; known are ${keys.join(', ')}`);
}

function pickBody(look: ParseContext, keys: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(
    keys.map((key) => [key, fieldValue(look, key)] as const).filter(([, value]) => value !== undefined),
  );
}
