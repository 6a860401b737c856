/** The ohms between three leads held against each other. */
import { describe, expect, test } from 'vitest';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { windingSets } from '../../../src/logbook/readings/winding-sets.ts';

const HOUR_MS = 3_600_000;
type Leads = NonNullable<EntryOf<'reading'>['body']['leads']>;

function readings(ohms: Partial<Record<Leads, number>>, apartH = 0): EntryOf<'reading'>[] {
  return Object.entries(ohms).map(([leads, ohm], at) => ({
    id: leads,
    well: 'a',
    kind: 'reading',
    atMs: at * apartH * HOUR_MS,
    createdMs: 0,
    body: { what: 'winding', value: `${ohm} ohm`, leads: leads as Leads },
  }));
}

function judged(pump: object, entries: EntryOf<'reading'>[]): string | undefined {
  const read = readCard({ well: 'a', pump });
  if ('problem' in read) throw new Error(read.problem);
  return windingSets(entries, read.card)[0]?.judgement;
}

describe('windingSets', () => {
  // Main 2 ohm, start 6 ohm: red to black reads both in line, 8 ohm.
  test.each<[string, number[], string]>([
    ['fits where main and start add up', [2, 6, 8], 'windings-fit'],
    ['tells of leads that are swapped', [6, 2, 8], 'start-under-main'],
    ['tells where they do not add up', [2, 6, 10], 'windings-do-not-add-up'],
  ])('single-phase: %s', (_name, [main, start, both], judgement) => {
    const entries = readings({ 'yellow-black': main!, 'yellow-red': start!, 'red-black': both! });
    expect(judged({ phase: 1 }, entries)).toBe(judgement);
  });

  test.each<[number[], string]>([
    [[3.1, 3.2, 3.1], 'windings-fit'],
    [[3.1, 3.6, 3.1], 'windings-differ'],
  ])('three-phase: %j %s', ([a, b, c], judgement) => {
    const entries = readings({ 'yellow-black': a!, 'yellow-red': b!, 'red-black': c! });
    expect(judged({ phase: 3 }, entries)).toBe(judgement);
  });

  test('takes the wire off before they are held together: 0.8 ohm hides what is wrong', () => {
    const entries = readings({ 'yellow-black': 2.79, 'yellow-red': 6.79, 'red-black': 8.79 });
    const wire = { dropSize: '12 AWG', dropLength: '250 ft' };
    expect(judged({ phase: 1, wire }, entries)).toBe('windings-fit');
    const short = readings({ 'yellow-black': 1, 'yellow-red': 2.5, 'red-black': 3.5 });
    expect(judged({ phase: 1 }, short)).toBe('windings-fit');
    expect(judged({ phase: 1, wire }, short)).toBe('windings-do-not-add-up');
  });

  test('needs all three within a day, and the phases on the card', () => {
    const all = { 'yellow-black': 2, 'yellow-red': 6, 'red-black': 8 };
    expect(judged({ phase: 1 }, readings(all, 13))).toBeUndefined();
    expect(judged({ phase: 1 }, readings({ 'yellow-black': 2, 'yellow-red': 6 }))).toBeUndefined();
    expect(judged({}, readings(all))).toBeUndefined();
  });
});
