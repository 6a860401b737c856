import { beforeEach, describe, expect, test } from 'vitest';
import {
  COUNT_MS,
  MAX_ADDRESSES,
  newRepeats,
  MAX_LINES_EACH,
  type Repeats,
} from '../../src/server/repeats.ts';

// Addresses set aside for examples: RFC 5737.
const [BARN, GATE] = ['192.0.2.9', '192.0.2.7'];

let nowMs = 0;
let lines: string[] = [];
let repeats: Repeats;
beforeEach(() => {
  nowMs = 1_000_000;
  lines = [];
  repeats = newRepeats({ write: (line) => lines.push(line), now: () => nowMs });
});

function tell(times: number, from: string): void {
  for (let n = 0; n < times; n++) repeats.tell(`Turned away a client at ${from}.`, from);
}
/** What was written since the last look. */
const fresh = (): string[] => lines.splice(0);

describe('newRepeats', () => {
  test('writes the first of an address, counts the rest, and says how many there were', () => {
    tell(MAX_LINES_EACH + 411, BARN);
    expect(fresh()).toEqual(Array<string>(MAX_LINES_EACH).fill(`Turned away a client at ${BARN}.`));
    nowMs += COUNT_MS - 1;
    repeats.due();
    expect(fresh()).toEqual([]);
    nowMs += 1;
    repeats.due();
    expect(fresh()).toEqual([`And 411 more from ${BARN}.`]);
    repeats.due();
    expect(fresh()).toEqual([]);
  });

  test('begins anew after a count, also where nobody asked for it', () => {
    tell(MAX_LINES_EACH + 2, BARN);
    fresh();
    nowMs += COUNT_MS;
    tell(1, BARN);
    expect(fresh()).toEqual([`And 2 more from ${BARN}.`, `Turned away a client at ${BARN}.`]);
  });

  test('counts each address by itself', () => {
    tell(MAX_LINES_EACH + 2, BARN);
    tell(1, GATE);
    expect(fresh().at(-1)).toBe(`Turned away a client at ${GATE}.`);
    repeats.end();
    expect(fresh()).toEqual([`And 2 more from ${BARN}.`]);
  });

  test('knows so many addresses and no more; those beyond are counted together', () => {
    for (let n = 0; n < MAX_ADDRESSES + 5_000; n++) tell(1, `10.0.${Math.floor(n / 256)}.${n % 256}`);
    expect(fresh()).toHaveLength(MAX_ADDRESSES);
    repeats.end();
    expect(fresh()).toEqual(['And 5000 more from other addresses.']);
  });

  test('is not stopped by a clock that is set back', () => {
    tell(MAX_LINES_EACH + 3, BARN);
    fresh();
    nowMs -= 3_600_000;
    repeats.due();
    expect(fresh()).toEqual([`And 3 more from ${BARN}.`]);
  });

  test('has words for a client whose address nobody knows', () => {
    tell(MAX_LINES_EACH + 1, '');
    repeats.end();
    expect(fresh().at(-1)).toBe('And 1 more from an unknown address.');
  });
});
