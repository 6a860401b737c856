/**
 * How a card or an act is looked through: key by key, each problem noted with its key, its rule and the value that breaks it. The
 * reader goes on after a problem, so that reading code stays a plain list of keys; the first problem is the one that is told.
 */
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { isIsoDate, parseRfc3339 } from './rfc3339.ts';

export interface Problem {
  key: string;
  rule: string;
  /** The value as it is told. */
  shown: string;
}

/** An object under inspection: where it stands ('' at the top), what it holds, and the problems noted so far (shared by all levels). */
export interface Look {
  path: string;
  holds: Record<string, unknown>;
  problems: Problem[];
}

/** A span of SI values and how it is said: "above 0 and at most 300 psi". */
export interface Limit {
  min: number;
  max: number;
  says: string;
}

/** Longest value shown in a problem: enough to know it again, short enough for one line. */
const SHOWN_CHARACTERS = 80;

/** Begins to look through `json`, or notes that it is no object. `keys` are all that may stand there; `undefined` allows any. */
export function lookAt(json: unknown, keys: readonly string[] | undefined): Look {
  const look: Look = { path: '', holds: {}, problems: [] };
  open(look, json, keys, '(the whole)');
  return look;
}

/** Looks into the object under `key`; undefined where nothing stands there. */
export function lookInto(outer: Look, key: string, keys: readonly string[] | undefined): Look | undefined {
  const value = valueOf(outer, key);
  if (value === undefined) return undefined;
  const look: Look = { path: `${pathOf(outer, key)}.`, holds: {}, problems: outer.problems };
  open(look, value, keys, pathOf(outer, key));
  return look;
}

function open(look: Look, value: unknown, keys: readonly string[] | undefined, name: string): void {
  if (!isRecord(value)) {
    look.problems.push({ key: name, rule: 'must be an object in braces', shown: shown(value) });
    return;
  }
  look.holds = value;
  if (keys) refuseOthers(look, keys);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function refuseOthers(look: Look, keys: readonly string[]): void {
  for (const key of Object.keys(look.holds)) {
    if (!keys.includes(key)) note(look, key, `is not known; known are ${keys.join(', ')}`);
  }
}

/** Notes that the value under `key` breaks `rule` ("must be …"); `told` stands for the value where another says more. */
export function note(look: Look, key: string, rule: string, told: string = shown(valueOf(look, key))): void {
  look.problems.push({ key: pathOf(look, key), rule, shown: told });
}

/** The first problem in one line, "Cannot read card: switch.cutIn must be …: "60 psi"", or undefined where there is none. */
export function firstProblem(look: Look, what: string): string | undefined {
  const problem = look.problems[0];
  return problem && `Cannot read ${what}: ${problem.key} ${problem.rule}: ${problem.shown}`;
}

/** Lists in lists in lists can be too deep to be written out. */
function jsonOf(value: unknown): string {
  try {
    return JSON.stringify(value) ?? 'nothing';
  } catch (error) {
    if (error instanceof RangeError) return 'something far too deep';
    throw error;
  }
}

/** The value under `key`, own keys only; undefined where it is absent. */
export function valueOf(look: Look, key: string): unknown {
  return Object.hasOwn(look.holds, key) ? look.holds[key] : undefined;
}

function pathOf(look: Look, key: string): string {
  return `${look.path}${key}`;
}

/** A value as it is told in a problem: in one short line, whatever it is. */
export function shown(value: unknown): string {
  const text = jsonOf(value);
  return text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}…` : text;
}

/** A quantity in SI within `limit`; undefined where absent or noted. */
export function quantityAt(look: Look, key: string, dimension: Dimension, limit: Limit): number | undefined {
  const value = valueOf(look, key);
  if (value === undefined) return undefined;
  const read = parseQuantity(value, dimension);
  if ('problem' in read) {
    note(look, key, read.problem);
    return undefined;
  }
  if (read.si >= limit.min && read.si <= limit.max) return read.si;
  note(look, key, `must be ${limit.says}`);
  return undefined;
}

/** One of `options`, as text or number; undefined where absent or noted. */
export function choiceAt<T extends string | number>(
  look: Look,
  key: string,
  options: readonly T[],
): T | undefined {
  const value = valueOf(look, key);
  if (value === undefined) return undefined;
  const found = options.find((option) => option === value);
  if (found === undefined) note(look, key, `must be one of ${options.join(', ')}`);
  return found;
}

/** Text for people: 1 to `longest` characters, no control characters. */
export function textAt(look: Look, key: string, longest: number): string | undefined {
  const value = valueOf(look, key);
  if (value === undefined) return undefined;
  if (isText(value, longest)) return value;
  note(look, key, `must be text of 1 to ${longest} characters in one line`);
  return undefined;
}

function isText(value: unknown, longest: number): value is string {
  return (
    typeof value === 'string' && value.trim() !== '' && value.length <= longest && !/\p{Cc}/u.test(value)
  );
}

/** A list of texts for people; [] where absent or noted. */
export function textsAt(
  look: Look,
  key: string,
  { most, longest }: { most: number; longest: number },
): string[] {
  const value = valueOf(look, key);
  if (value === undefined) return [];
  if (!Array.isArray(value) || value.length > most) {
    note(look, key, `must be a list of at most ${most} lines`);
    return [];
  }
  const lines: unknown[] = value;
  const wrong = lines.find((line) => !isText(line, longest));
  if (wrong !== undefined)
    note(look, key, `must each be text of 1 to ${longest} characters in one line`, shown(wrong));
  return lines.filter((line) => isText(line, longest));
}

/** A date, or as much of it as is known: "2019-05-14", "2019-05", "2019". */
export function dateAt(look: Look, key: string): string | undefined {
  const value = valueOf(look, key);
  if (value === undefined) return undefined;
  if (typeof value === 'string' && isIsoDate(`${value}-01-01`.slice(0, Math.max(10, value.length))))
    return value;
  note(look, key, 'must be a date such as "2019-05-14", "2019-05" or "2019"');
  return undefined;
}

/** Without the keys of which nothing is said. */
export function given<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  // The compiler does not follow a filter by value into the type of its keys.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}

/** A moment, RFC 3339 text, in Unix ms. */
export function momentAt(look: Look, key: string): number | undefined {
  const value = valueOf(look, key);
  if (value === undefined) return undefined;
  const ms = typeof value === 'string' ? parseRfc3339(value) : undefined;
  if (ms === undefined) note(look, key, 'must be a time such as "2026-03-12T10:00:00Z"');
  return ms;
}

/** A name as topics carry it (contract, section 1): 1 to 40 of a-z 0-9 and -. */
export function nameAt(look: Look, key: string): string | undefined {
  const value = valueOf(look, key);
  if (isName(value)) return value;
  if (value !== undefined) note(look, key, 'must be 1 to 40 of a-z, 0-9 and -');
  return undefined;
}

export function isName(value: unknown): value is string {
  return typeof value === 'string' && /^[a-z0-9-]{1,40}$/.test(value);
}

/** As the getters above, for a key that may not be missing. */
export function needed<T>(look: Look, key: string, value: T | undefined): T | undefined {
  if (valueOf(look, key) === undefined) note(look, key, 'must be given');
  return value;
}
