/**
 * Channel names and units as bytes, so that a pack can be read without making a string of each: a
 * name's hash finds its place in a table, and the bytes there must be equal.
 */
import {
  BASE_CHANNELS,
  CHANNEL_UNITS,
  MAX_PUMPS,
  channelName,
  codeOf,
  placeOf,
} from '../../domain/channels.ts';
import { NOT_FOUND, bytesEqual } from '../json/json-scan.ts';

/** Five times the 180 names there are: few share a place. */
const SLOTS = 1024;

const encoder = new TextEncoder();
const slotCode = new Int16Array(SLOTS).fill(NOT_FOUND);
const slotName: Uint8Array[] = Array.from({ length: SLOTS }, () => new Uint8Array());

function slotOf(bytes: Uint8Array, from: number, to: number): number {
  let h = to - from;
  for (let i = from; i < to; i++) h = (Math.imul(h, 31) + bytes[i]!) | 0;
  return h & (SLOTS - 1);
}

for (let pump = 0; pump < MAX_PUMPS; pump++) {
  for (const base of BASE_CHANNELS) {
    const code = codeOf(base, pump);
    const word = encoder.encode(channelName(code));
    let place = slotOf(word, 0, word.length);
    while (slotCode[place] !== NOT_FOUND) place = (place + 1) & (SLOTS - 1);
    slotCode[place] = code;
    slotName[place] = word;
  }
}

const UNIT_BYTES: Uint8Array[] = BASE_CHANNELS.map((base) => encoder.encode(CHANNEL_UNITS[base]));

/** Code of the channel that these bytes name, or NOWHERE. */
export function channelFromBytes(bytes: Uint8Array, from: number, to: number): number {
  let slot = slotOf(bytes, from, to);
  while (slotCode[slot] !== NOT_FOUND) {
    if (bytesEqual(bytes, from, to, slotName[slot]!)) return slotCode[slot]!;
    slot = (slot + 1) & (SLOTS - 1);
  }
  return NOT_FOUND;
}

/** True where these bytes are the unit of this channel's code. */
export function isUnitBytes(bytes: Uint8Array, from: number, to: number, code: number): boolean {
  return bytesEqual(bytes, from, to, UNIT_BYTES[placeOf(code)]!);
}
