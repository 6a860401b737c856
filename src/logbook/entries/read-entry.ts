/**
 * An entry as a person wrote it -> a checked one, or the key, the rule and the value that is wrong.
 * The fields of each kind are the table's (shared/entries/entry-fields.ts); here stand those that
 * all have. An entry of the future is refused: nothing is written down before it happened.
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
import { readFields } from '../../core/domain/read-fields.ts';
import { ENTRY_FIELDS, ENTRY_KINDS, type EntryKind } from '../../../shared/entries/entry-fields.ts';
import type { Values } from '../../../shared/schema/field.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { checkRule } from './read-check.ts';
import { checkPlanRule } from './read-check-plan.ts';
import { readingRule } from './read-reading.ts';
import { yieldTestRule } from './read-yield-test.ts';
import { waterTestRule } from './read-water-test.ts';
import { texts } from '../texts.ts';

/** What a page or a command sends; the id and the time of writing come from the server. */
export interface EntryStamp {
  id: string;
  createdMs: number;
  by?: string;
}

/**
 * A rule between the fields of a kind: what is wrong is noted in the look. A field that was
 * refused, or must be given and is not, is missing.
 */
export type EntryRule<K extends EntryKind> = (
  look: ParseContext,
  values: Partial<Values<(typeof ENTRY_FIELDS)[K]>>,
) => void;

const COMMON_KEYS = ['kind', 'well', 'at', 'replaces'] as const;

const RULES: { readonly [K in EntryKind]?: EntryRule<K> } = {
  reading: readingRule,
  check: checkRule,
  'check-plan': checkPlanRule,
  'water-test': waterTestRule,
  'yield-test': yieldTestRule,
};

/** A clock may be a little off; a day ahead is a slip of the pen. */
const MAX_AHEAD_MS = DAY_MS;
/** The first drilled wells with papers are of about this time. */
const OLDEST_MS = Date.UTC(1850, 0, 1);

/** The entry, or one line that names the key, the rule and the value. Never throws. */
export function readEntry(json: unknown, stamp: EntryStamp): { entry: Entry } | { problem: string } {
  const look = rootContext(json, undefined);
  const kind = required(look, 'kind', choiceAt(look, 'kind', ENTRY_KINDS));
  if (kind === undefined) return { problem: formatFirstIssue(look, 'entry') ?? kindMissing() };
  const keys = Object.keys(ENTRY_FIELDS[kind]);
  rejectUnknownKeys(look, [...COMMON_KEYS, ...keys]);
  const well = required(look, 'well', nameAt(look, 'well')) ?? '';
  const atMs = momentAt(look, 'at') ?? stamp.createdMs;
  if (atMs > stamp.createdMs + MAX_AHEAD_MS || atMs < OLDEST_MS) addIssue(look, 'at', texts().entry.isPast);
  const replaces = textAt(look, 'replaces', 80);
  if (kind === 'struck') required(look, 'replaces', replaces);
  checkBody(look, kind);
  const problem = formatFirstIssue(look, 'entry');
  if (problem !== undefined) return { problem };
  // Each field was looked at by the table of its kind: that is what the type says.
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
    } as Entry,
  };
}

/** A kind that is there and wrong has its own problem already. */
function kindMissing(): string {
  const { cannotRead, mustBeGiven, nothing } = texts().entry;
  return cannotRead({ key: 'kind', rule: mustBeGiven, value: nothing });
}

function checkBody(look: ParseContext, kind: EntryKind): void {
  const values: object = readFields(look, ENTRY_FIELDS[kind]);
  const rule: ((look: ParseContext, values: object) => void) | undefined = RULES[kind];
  rule?.(look, values);
}

function rejectUnknownKeys(look: ParseContext, keys: readonly string[]): void {
  for (const key of Object.keys(look.fields))
    if (!keys.includes(key)) addIssue(look, key, texts().entry.unknownKey(keys.join(', ')));
}

function pickBody(look: ParseContext, keys: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(
    keys.map((key) => [key, fieldValue(look, key)] as const).filter(([, value]) => value !== undefined),
  );
}
