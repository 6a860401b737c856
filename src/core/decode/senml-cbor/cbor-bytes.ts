/**
 * CBOR bytes to the same records that JSON gives (RFC 8428, section 6: integer labels for the
 * fields the RFC names, text for all others). What a value alone no longer shows is decided here,
 * on the tokens: how deep it nests, and whether a base time came in half or single precision, which
 * holds today's seconds only to the minute.
 */
import { Tokenizer, Type, decode } from 'cborg';
import type { DecodeOptions, Token } from 'cborg';
import type { DecodeTokenizer } from 'cborg/interface';
import { ABSOLUTE_FROM_S, MAX_DEPTH } from '../limits.ts';
import type { WrittenValue } from '../../../../shared/text/en/refusals/written-value.ts';
import type { Refusal } from '../messages.ts';
import { refuse, formatValue } from '../refuse.ts';
import { CBOR_LABELS } from './cbor-labels.ts';

const LABEL_NAMES = new Map<number, string>(
  Object.entries(CBOR_LABELS).map(([name, label]) => [label, name]),
);

/** A tag that only says "this is CBOR" (RFC 8949, section 3.4.6) may stand in front. */
const SELF_DESCRIBED = 55799;

/** Bytes of a double, its first one included; half is 3 and single 5. */
const DOUBLE_BYTES = 9;

const OPTIONS: DecodeOptions = {
  useMaps: true,
  rejectDuplicateMapKeys: true,
  allowUndefined: false,
  // A large integer must come through, to be refused by the name of the field it stands in.
  allowBigInt: true,
  tags: { [SELF_DESCRIBED]: (inner) => inner() },
};

/**
 * An array or map that is not complete yet: items still to come (a map's keys and values are
 * counted apart).
 */
interface OpenContainer {
  map: boolean;
  remaining: number;
  /** In a map: the key just read. */
  key: unknown;
}

class TooDeep extends Error {}

/** A label that is neither an integer nor text, or stands twice. */
class BadLabel extends Error {
  readonly label: WrittenValue;

  constructor(label: unknown) {
    super();
    this.label = formatValue(label);
  }
}

/** More items than any payload has bytes, and even. */
const INDEFINITE_ITEMS = 2 ** 40;

interface WatchedTokens {
  tokens: DecodeTokenizer;
  coarseTime(): boolean;
}

/**
 * Passes tokens on and watches two things that the finished value no longer shows. Throws TooDeep.
 */
function watchTokens(bytes: Uint8Array): WatchedTokens {
  const inner = new Tokenizer(bytes, OPTIONS);
  const open: OpenContainer[] = [];
  let coarse = false;

  function next(): Token {
    const token = inner.next();
    if (Type.equals(token.type, Type.tag)) return token;
    while (open.length > 0 && open.at(-1)!.remaining <= 0) open.pop();
    if (Type.equals(token.type, Type.break)) {
      open.pop();
      return token;
    }
    const container = open.at(-1);
    if (container !== undefined && isCoarseTime(container, token)) coarse = true;
    if (Type.equals(token.type, Type.array)) enter(false, Number(token.value));
    else if (Type.equals(token.type, Type.map)) enter(true, 2 * Number(token.value));
    return token;
  }

  function enter(map: boolean, items: number): void {
    if (open.length >= MAX_DEPTH) throw new TooDeep();
    open.push({ map, remaining: Number.isFinite(items) ? items : INDEFINITE_ITEMS, key: undefined });
  }

  return { tokens: { next, done: () => inner.done(), pos: () => inner.pos() }, coarseTime: () => coarse };
}

/**
 * Takes the next item of an array or map into account; true where it is a Unix time that its float
 * can't hold to the second.
 */
function isCoarseTime(container: OpenContainer, token: Token): boolean {
  container.remaining--;
  if (!container.map) return false;
  // A map's items come in pairs: with an odd number left this one was a key.
  if (container.remaining % 2 === 1) {
    container.key = token.value;
    return false;
  }
  if (!Type.equals(token.type, Type.float) || token.encodedLength === DOUBLE_BYTES) return false;
  if (container.key === CBOR_LABELS.bt || container.key === 'bt') return true;
  return (container.key === CBOR_LABELS.t || container.key === 't') && Number(token.value) >= ABSOLUTE_FROM_S;
}

/**
 * The records of a CBOR pack as plain objects with text labels, or whatever else the bytes hold.
 */
export function readCbor(bytes: Uint8Array): { value: unknown } | Refusal {
  try {
    const watched = watchTokens(bytes);
    const value: unknown = decode(bytes, { ...OPTIONS, tokenizer: watched.tokens });
    if (watched.coarseTime()) {
      return refuse('time-too-coarse', 'coarse-time');
    }
    return { value: Array.isArray(value) ? value.map(recordOf) : value };
  } catch (error) {
    if (error instanceof TooDeep) return refuse('too-deep', 'cbor-depth', { max: MAX_DEPTH });
    return refuseCbor(bytes.length, error);
  }
}

function refuseCbor(bytes: number, error: unknown): Refusal {
  if (error instanceof BadLabel) return refuse('not-cbor', 'cbor-label', { bytes, label: error.label });
  const shown = error instanceof Error ? formatValue(error.message) : undefined;
  return typeof shown === 'string'
    ? refuse('not-cbor', 'cbor', { bytes, error: shown.slice(1, -1) })
    : refuse('not-cbor', 'cbor-unreadable', { bytes });
}

/**
 * One map with its integer labels written out; a label that RFC 8428 doesn't have keeps its number
 * as text and is ignored like any unknown key.
 */
function recordOf(item: unknown): unknown {
  if (!(item instanceof Map)) return item;
  const record = new Map<string, unknown>();
  for (const [key, value] of item) {
    const label = typeof key === 'number' ? (LABEL_NAMES.get(key) ?? `${key}`) : key;
    if (typeof label !== 'string' || record.has(label)) {
      throw new BadLabel(key);
    }
    record.set(label, value);
  }
  return Object.fromEntries(record);
}
