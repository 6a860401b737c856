/**
 * Times as recordings write them: RFC 3339, and two forms near it that MQTT clients print: an offset without a colon, and an offset
 * behind a Z (there the offset counts and the Z does not).
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
const TIME =
  /^(\d{4})-(\d\d)-(\d\d)[Tt ](\d\d):(\d\d):(\d\d)(?:[.,](\d{1,9}))?(?:[Zz]?([+-])(\d\d):?(\d\d)|[Zz])$/;

/** Unix ms, cut to whole ones, or undefined where the text is no time with a zone. */
export function parseRecordingTime(text: string): number | undefined {
  const parts = TIME.exec(text);
  if (parts === null) return undefined;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = parts.slice(1, 7).map(Number);
  const [, , , , , , , fraction, sign, offsetHours, offsetMinutes] = parts;
  if (!isDay(year, month, day) || hour > 23 || minute > 59 || second > 60) return undefined;
  const ms = fraction === undefined ? 0 : Number(fraction.slice(0, 3).padEnd(3, '0'));
  const offsetMin = sign === undefined ? 0 : Number(offsetHours) * 60 + Number(offsetMinutes);
  const localMs = Date.UTC(year, month - 1, day, hour, minute, second, ms);
  return localMs - (sign === '-' ? -offsetMin : offsetMin) * MINUTE_MS;
}

function isDay(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

const QUOTE = 0x22;
const ISO_LENGTH = '"2026-03-02T07:36:10.226Z"'.length;

/** The last day that was read, and when it began: times of a recording stand in order. */
const lastDay = { ymd: 0, ms: 0 };

/** Unix ms of a quoted time in the very form that Date.toISOString gives; undefined for any other, which may be a time all the same. */
export function parseIsoTimeBytes(quoted: Uint8Array): number | undefined {
  if (quoted.length !== ISO_LENGTH || quoted[0] !== QUOTE || quoted[25] !== QUOTE) return undefined;
  if (quoted[5] !== 0x2d || quoted[8] !== 0x2d || quoted[11] !== 0x54 || quoted[14] !== 0x3a)
    return undefined;
  if (quoted[17] !== 0x3a || quoted[20] !== 0x2e || quoted[24] !== 0x5a) return undefined;
  const year = digits(quoted, 1, 4);
  const month = digits(quoted, 6, 2);
  const day = digits(quoted, 9, 2);
  const hour = digits(quoted, 12, 2);
  const minute = digits(quoted, 15, 2);
  const second = digits(quoted, 18, 2);
  const ms = digits(quoted, 21, 3);
  // What is no digit made the number NaN, and no comparison with that holds.
  if (!(hour <= 23 && minute <= 59 && second <= 60 && ms >= 0 && year > 99)) return undefined;
  const ymd = (year * 100 + month) * 100 + day;
  if (ymd !== lastDay.ymd) {
    if (!isDay(year, month, day)) return undefined;
    lastDay.ms = Date.UTC(year, month - 1, day);
    lastDay.ymd = ymd;
  }
  return lastDay.ms + ((hour * 60 + minute) * 60 + second) * 1000 + ms;
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
