/**
 * Bytes to a JSON value, or the reason why not. Depth is measured on the bytes before anything is
 * built: what is nested deeper than any message of ours needs is refused unread. Where a key stands
 * twice in one object the last one counts, as JSON.parse has it.
 */
import type { Refusal } from '../messages.ts';
import { MAX_DEPTH } from '../limits.ts';
import { refuse } from '../refuse.ts';

const QUOTE = 0x22;
const BACKSLASH = 0x5c;

/**
 * Brackets open at the deepest place, strings left out. Meaningful for JSON; for other bytes just a
 * number.
 */
export function jsonDepth(bytes: Uint8Array): number {
  let depth = 0;
  let deepest = 0;
  let inString = false;
  for (let i = 0; i < bytes.length; i++) {
    const c = bytes[i]!;
    if (inString) {
      if (c === BACKSLASH) i++;
      else if (c === QUOTE) inString = false;
    } else if (c === QUOTE) inString = true;
    else if (c === 0x5b || c === 0x7b) deepest = Math.max(deepest, ++depth);
    else if (c === 0x5d || c === 0x7d) depth--;
  }
  return deepest;
}

/**
 * One serves all: a decoder that is not asked to stream keeps nothing from one text to the next,
 * and making one is dear.
 */
const UTF8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

/** UTF-8 text of these bytes, or undefined where they are not UTF-8. */
export function utf8Text(bytes: Uint8Array): string | undefined {
  try {
    return UTF8.decode(bytes);
  } catch {
    return undefined;
  }
}

/** The value of JSON bytes, wrapped so that it can't be mistaken for a refusal. */
export function readJson(bytes: Uint8Array): { value: unknown } | Refusal {
  const text = utf8Text(bytes);
  if (text === undefined) return refuse('not-utf8', 'utf8');
  const depth = jsonDepth(bytes);
  if (depth > MAX_DEPTH) return refuse('too-deep', 'json-depth', { max: MAX_DEPTH, depth });
  try {
    return { value: JSON.parse(text) as unknown };
  } catch {
    return refuse('not-json', 'json', { bytes: bytes.length });
  }
}
