/**
 * Times as recordings write them: RFC 3339, and two forms near it that MQTT clients print: an
 * offset without a colon, and an offset behind a Z (there the offset counts and the Z does not).
 */
import { parseRfc3339, utcSecondMs } from '../domain/rfc3339.ts';

const TIME =
  /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d):(\d\d)(?:[.,](\d{1,9}))?(?:[Zz]?([+-])(\d\d):?(\d\d)|[Zz])$/;

/** Unix ms, cut to whole ones, or undefined where the text is no time with a zone. */
export function parseRecordingTime(text: string): number | undefined {
  return parseRfc3339(text, TIME);
}

const QUOTE = 0x22;
const ISO_LENGTH = '"2026-03-02T07:36:10.226Z"'.length;

/**
 * Unix ms of a quoted time in the very form that Date.toISOString gives; undefined for any other,
 * which may be a time all the same.
 */
export function parseIsoTimeBytes(quoted: Uint8Array): number | undefined {
  if (quoted.length !== ISO_LENGTH || quoted[0] !== QUOTE || quoted[25] !== QUOTE) return undefined;
  if (quoted[5] !== 0x2d || quoted[8] !== 0x2d || quoted[11] !== 0x54 || quoted[14] !== 0x3a)
    return undefined;
  if (quoted[17] !== 0x3a || quoted[20] !== 0x2e || quoted[24] !== 0x5a) return undefined;
  const secondMs = utcSecondMs(
    digits(quoted, 1, 4),
    digits(quoted, 6, 2),
    digits(quoted, 9, 2),
    digits(quoted, 12, 2),
    digits(quoted, 15, 2),
    digits(quoted, 18, 2),
  );
  const ms = digits(quoted, 21, 3);
  return secondMs === undefined || Number.isNaN(ms) ? undefined : secondMs + ms;
}

function digits(bytes: Uint8Array, from: number, count: number): number {
  let value = 0;
  for (let at = from; at < from + count; at++) {
    const digit = bytes[at]! - 0x30;
    if (digit < 0 || digit > 9) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
}
