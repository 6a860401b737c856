/**
 * How a card or an act is looked through: key by key, each problem noted with its key, its rule and
 * the value that breaks it. The reader goes on after a problem, so that reading code stays a plain
 * list of keys; the first problem is the one that is told.
 */
import type { ReadOf } from '../../../shared/text/en/refusals/field-rules.ts';
import { rangeText, type ValueRange } from '../../../shared/schema/field.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { texts } from './texts.ts';
import { isIsoDate, parseRfc3339 } from './rfc3339.ts';

export interface ParseIssue {
  key: string;
  rule: string;
  /** The value as it is told. */
  valueText: string;
}

/**
 * An object under inspection: where it stands ('' at the top), what it holds, and the problems
 * noted so far (shared by all levels).
 */
export interface ParseContext {
  path: string;
  fields: Record<string, unknown>;
  issues: ParseIssue[];
}

/** Longest value shown in a problem: enough to know it again, short enough for one line. */
const MAX_VALUE_CHARACTERS = 80;

/**
 * Begins to look through `json`, or notes that it is no object. `keys` are all that may stand
 * there; `undefined` allows any.
 */
export function rootContext(json: unknown, keys: readonly string[] | undefined): ParseContext {
  const context: ParseContext = { path: '', fields: {}, issues: [] };
  enterObject(context, json, keys, '(root)');
  return context;
}

/** Looks into the object under `key`; undefined where nothing stands there. */
export function childContext(
  outer: ParseContext,
  key: string,
  keys: readonly string[] | undefined,
): ParseContext | undefined {
  const value = fieldValue(outer, key);
  if (value === undefined) return undefined;
  const context: ParseContext = { path: `${fieldPath(outer, key)}.`, fields: {}, issues: outer.issues };
  enterObject(context, value, keys, fieldPath(outer, key));
  return context;
}

function enterObject(
  context: ParseContext,
  value: unknown,
  keys: readonly string[] | undefined,
  name: string,
): void {
  if (!isRecord(value)) {
    context.issues.push({ key: name, rule: texts().mustBeAnObject, valueText: formatValue(value) });
    return;
  }
  context.fields = value;
  if (keys) rejectUnknownKeys(context, keys);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function rejectUnknownKeys(context: ParseContext, keys: readonly string[]): void {
  for (const key of Object.keys(context.fields)) {
    if (!keys.includes(key)) addIssue(context, key, texts().isNotKnown(keys));
  }
}

/**
 * Notes that the value under `key` breaks `rule` ("must be …"); `valueText` stands for the value
 * where another says more.
 */
export function addIssue(
  context: ParseContext,
  key: string,
  rule: string,
  valueText: string = formatValue(fieldValue(context, key)),
): void {
  context.issues.push({ key: fieldPath(context, key), rule, valueText: valueText });
}

/**
 * The first problem in one line, "Cannot read card: switch.cutIn must be …: "60 psi"", or undefined
 * where there is none.
 */
export function formatFirstIssue(context: ParseContext, what: ReadOf): string | undefined {
  const issue = context.issues[0];
  return issue && texts().cannotRead({ what, key: issue.key, rule: issue.rule, value: issue.valueText });
}

/** Lists in lists in lists can be too deep to be written out. */
function toJsonText(value: unknown): string {
  try {
    return JSON.stringify(value) ?? texts().nothing;
  } catch (error) {
    if (error instanceof RangeError) return texts().farTooDeep;
    throw error;
  }
}

/** The value under `key`, own keys only; undefined where it is absent. */
export function fieldValue(context: ParseContext, key: string): unknown {
  return Object.hasOwn(context.fields, key) ? context.fields[key] : undefined;
}

function fieldPath(context: ParseContext, key: string): string {
  return `${context.path}${key}`;
}

/** A value as it is told in a problem: in one short line, whatever it is. */
export function formatValue(value: unknown): string {
  const text = toJsonText(value);
  return text.length > MAX_VALUE_CHARACTERS ? `${text.slice(0, MAX_VALUE_CHARACTERS)}…` : text;
}

/** A quantity in SI within `limit`; undefined where absent or noted. */
export function quantityAt(
  context: ParseContext,
  key: string,
  dimension: Dimension,
  limit: ValueRange,
): number | undefined {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  const read = parseQuantity(value, dimension);
  if ('problem' in read) {
    addIssue(context, key, read.problem);
    return undefined;
  }
  if (read.si >= limit.min && read.si <= limit.max) return read.si;
  addIssue(context, key, texts().mustBeInRange(rangeText(limit)));
  return undefined;
}

/** One of `options`, as text or number; undefined where absent or noted. */
export function choiceAt<T extends string | number>(
  context: ParseContext,
  key: string,
  options: readonly T[],
): T | undefined {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  const found = options.find((option) => option === value);
  if (found === undefined) addIssue(context, key, texts().mustBeOneOf(options));
  return found;
}

/** Text for people: 1 to `maxCharacters` characters, no control characters. */
export function textAt(context: ParseContext, key: string, maxCharacters: number): string | undefined {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  if (isText(value, maxCharacters)) return value;
  addIssue(context, key, texts().mustBeText(maxCharacters));
  return undefined;
}

function isText(value: unknown, maxCharacters: number): value is string {
  return (
    typeof value === 'string' &&
    value.trim() !== '' &&
    value.length <= maxCharacters &&
    !/\p{Cc}/u.test(value)
  );
}

/** A list of texts for people; [] where absent or noted. */
export function textsAt(
  context: ParseContext,
  key: string,
  { maxItems, maxCharacters }: { maxItems: number; maxCharacters: number },
): string[] {
  const value = fieldValue(context, key);
  if (value === undefined) return [];
  if (!Array.isArray(value) || value.length > maxItems) {
    addIssue(context, key, texts().mustBeLines(maxItems));
    return [];
  }
  const lines: unknown[] = value;
  const wrong = lines.find((line) => !isText(line, maxCharacters));
  if (wrong !== undefined) addIssue(context, key, texts().mustEachBeText(maxCharacters), formatValue(wrong));
  return lines.filter((line) => isText(line, maxCharacters));
}

/** A date, or as much of it as is known: "2019-05-14", "2019-05", "2019". */
export function dateAt(context: ParseContext, key: string): string | undefined {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  if (typeof value === 'string' && isIsoDate(`${value}-01-01`.slice(0, Math.max(10, value.length))))
    return value;
  addIssue(context, key, texts().mustBeADate);
  return undefined;
}

/** A moment, RFC 3339 text, in Unix ms. */
export function momentAt(context: ParseContext, key: string): number | undefined {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  const ms = typeof value === 'string' ? parseRfc3339(value) : undefined;
  if (ms === undefined) addIssue(context, key, texts().mustBeATime);
  return ms;
}

/** A name as topics carry it (contract, section 1): 1 to 40 of a-z 0-9 and -. */
export function nameAt(context: ParseContext, key: string): string | undefined {
  const value = fieldValue(context, key);
  if (isName(value)) return value;
  if (value !== undefined) addIssue(context, key, texts().mustBeAName);
  return undefined;
}

export function isName(value: unknown): value is string {
  return typeof value === 'string' && /^[a-z0-9-]{1,40}$/.test(value);
}

/** As the getters above, for a key that may not be missing. */
export function required<T>(context: ParseContext, key: string, value: T | undefined): T | undefined {
  if (fieldValue(context, key) === undefined) addIssue(context, key, texts().mustBeGiven);
  return value;
}
