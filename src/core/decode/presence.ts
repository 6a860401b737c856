/**
 * `presence`: here, gone or no-power, as JSON text or bare (contract, sections 1 and 6: both read
 * the same).
 */
import type { Presence, Refusal } from './messages.ts';
import { utf8Text } from './json/json-bytes.ts';
import { refuse, formatValue } from './refuse.ts';
import { PRESENCES } from './wire-enums.ts';

const PRESENCE_BY_TEXT = new Map<string, Presence>(
  PRESENCES.flatMap((word) => [[word, word] as const, [`"${word}"`, word] as const]),
);
/** The longest of them in quotes is 10; more is not looked at. */
const MAX_BYTES = 64;

export function readPresence(bytes: Uint8Array): Presence | Refusal {
  if (bytes.length === 0) return refuse('empty', 'presence-empty');
  const text = utf8Text(bytes.subarray(0, MAX_BYTES + 1));
  const word = bytes.length > MAX_BYTES ? undefined : PRESENCE_BY_TEXT.get(text?.trim() ?? '');
  return word ?? refuse('bad-presence', 'presence', { value: formatValue(text) });
}

/** The bytes of a presence as a node, or the broker for its Will, sends them. */
export function encodePresence(presence: Presence): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(presence));
}
