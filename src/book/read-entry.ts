/**
 * An entry as a person wrote it -> a checked one, or the key, the rule and the value that is wrong. Each kind has a file of its own that
 * knows its keys; here stand those that all have. An entry of the future is refused: nothing is written down before it happened.
 */
import type { Look } from '../card/look.ts';
import {
  choiceAt,
  firstProblem,
  lookAt,
  momentAt,
  nameAt,
  needed,
  note,
  textAt,
  valueOf,
} from '../card/look.ts';
import { ENTRY_KINDS, type Entry, type EntryKind } from './entry.ts';
import { checkBody } from './read-check.ts';
import { checkPlanBody } from './read-check-plan.ts';
import { noteBody } from './read-note.ts';
import { paperBody } from './read-paper.ts';
import { readingBody } from './read-reading.ts';
import { waterTestBody } from './read-water-test.ts';
import { workBody } from './read-work.ts';
import { LONGEST_NOTE } from './limits.ts';

/** What a page or a command sends; the id and the time of writing come from the server. */
export interface Written {
  id: string;
  madeMs: number;
  by?: string;
}

/** The keys of a kind beside those that all have, and how they are looked through: what is wrong is noted in the look. */
export interface Body {
  keys: readonly string[];
  check: (look: Look) => void;
}

const COMMON = ['kind', 'well', 'at', 'replaces'] as const;

const BODIES: Record<EntryKind, Body> = {
  reading: readingBody,
  check: checkBody,
  'check-plan': checkPlanBody,
  'water-test': waterTestBody,
  work: workBody,
  paper: paperBody,
  note: noteBody,
  struck: { keys: ['text'], check: (look) => void textAt(look, 'text', LONGEST_NOTE) },
};

/** A clock may be a little off; a day ahead is a slip of the pen. */
const AHEAD_MS = 86_400_000;
/** The first drilled wells with papers are of about this time. */
const OLDEST_MS = Date.UTC(1850, 0, 1);

/** The entry, or one line that names the key, the rule and the value. Never throws. */
export function readEntry(json: unknown, written: Written): { entry: Entry } | { problem: string } {
  const look = lookAt(json, undefined);
  const kind = needed(look, 'kind', choiceAt(look, 'kind', ENTRY_KINDS));
  if (kind === undefined)
    return { problem: firstProblem(look, 'entry') ?? 'Cannot read entry: kind must be given: nothing' };
  const { keys, check } = BODIES[kind];
  refuseOthers(look, [...COMMON, ...keys]);
  const well = needed(look, 'well', nameAt(look, 'well')) ?? '';
  const atMs = momentAt(look, 'at') ?? written.madeMs;
  if (atMs > written.madeMs + AHEAD_MS || atMs < OLDEST_MS)
    note(look, 'at', 'must lie in the past, and not before 1850');
  const replaces = textAt(look, 'replaces', 80);
  if (kind === 'struck') needed(look, 'replaces', replaces);
  check(look);
  const problem = firstProblem(look, 'entry');
  if (problem !== undefined) return { problem };
  return {
    entry: {
      id: written.id,
      well,
      kind,
      atMs,
      madeMs: written.madeMs,
      ...(written.by !== undefined && { by: written.by }),
      ...(replaces !== undefined && { replaces }),
      body: bodyOf(look, keys),
    },
  };
}

function refuseOthers(look: Look, keys: readonly string[]): void {
  for (const key of Object.keys(look.holds))
    if (!keys.includes(key)) note(look, key, `is not known here; known are ${keys.join(', ')}`);
}

function bodyOf(look: Look, keys: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(
    keys.map((key) => [key, valueOf(look, key)] as const).filter(([, value]) => value !== undefined),
  );
}
