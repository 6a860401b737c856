/**
 * Channel names and units as bytes, so that a pack can be read without making a string of each: a name's hash finds its place in a
 * table, and the bytes there must be equal.
 */
import { BASE_CHANNELS, CHANNEL_UNITS, MAX_PUMPS, channelName } from './channels.ts';
import { NOWHERE, wordIs } from './json-scan.ts';

/** Five times the 180 names there are: few share a place. */
const PLACES = 1024;

const encoder = new TextEncoder();
const codeAt = new Int16Array(PLACES).fill(NOWHERE);
const wordAt: Uint8Array[] = Array.from({ length: PLACES }, () => new Uint8Array());

function placeOf(bytes: Uint8Array, from: number, to: number): number {
  let h = to - from;
  for (let i = from; i < to; i++) h = (Math.imul(h, 31) + bytes[i]!) | 0;
  return h & (PLACES - 1);
}

for (let pump = 0; pump < MAX_PUMPS; pump++) {
  for (let base = 0; base < BASE_CHANNELS.length; base++) {
    const code = pump * 16 + base;
    const word = encoder.encode(channelName(code));
    let place = placeOf(word, 0, word.length);
    while (codeAt[place] !== NOWHERE) place = (place + 1) & (PLACES - 1);
    codeAt[place] = code;
    wordAt[place] = word;
  }
}

const UNIT_WORDS: Uint8Array[] = BASE_CHANNELS.map((base) => encoder.encode(CHANNEL_UNITS[base]));

/** Code of the channel that these bytes name, or NOWHERE. */
export function channelOfWord(bytes: Uint8Array, from: number, to: number): number {
  let place = placeOf(bytes, from, to);
  while (codeAt[place] !== NOWHERE) {
    if (wordIs(bytes, from, to, wordAt[place]!)) return codeAt[place]!;
    place = (place + 1) & (PLACES - 1);
  }
  return NOWHERE;
}

/** True where these bytes are the unit of this channel's code. */
export function isUnitWord(bytes: Uint8Array, from: number, to: number, code: number): boolean {
  return wordIs(bytes, from, to, UNIT_WORDS[code & 15]!);
}
