/** What was measured beside what is written. */
import { describe, expect, test } from 'vitest';
import { comparisonText, switchComparisonText } from '../../../shared/text/en/checks/measured-text.ts';
import type { Baseline } from '../../../src/core/baseline/baseline.ts';
import { compareWithCard } from '../../../src/logbook/readings/card-comparison.ts';
import { readEntry } from '../../../src/logbook/entries/read-entry.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';

const DAY_MS = 86_400_000;
const T0 = Date.UTC(2026, 2, 12);
const PSI = 6.894757;

function cardOf(written: object) {
  const read = readCard({ well: 'a', ...written });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

const normal = (median: number) => ({ median, spread: 0.1, n: 20 });
function usualOf(figures: { amps?: number; cutIn?: number; cutOut?: number }, more: Partial<Baseline> = {}) {
  const baseline: Baseline = {
    atMs: T0,
    pinned: false,
    ...(figures.amps !== undefined && { amps: normal(figures.amps) }),
    ...(figures.cutIn !== undefined && { cutInKpa: normal(figures.cutIn * PSI) }),
    ...(figures.cutOut !== undefined && { cutOutKpa: normal(figures.cutOut * PSI) }),
    ...more,
  };
  return [{ pump: 'p1', baseline }];
}

function reading(day: number, body: object, id = `e${day}`): Entry {
  const at = new Date(T0 + day * DAY_MS).toISOString();
  const read = readEntry(
    { kind: 'reading', well: 'a', at, ...body },
    { id, createdMs: T0 + 90 * DAY_MS, by: 'Ines' },
  );
  if ('problem' in read) throw new Error(read.problem);
  return read.entry;
}

const CARD = {
  pump: { volts: '230 V', maxAmps: '9.8 A' },
  switch: '40/60',
  tank: { precharge: '38 psi' },
  hole: { staticLevel: '41 ft' },
};

describe('measuredBeside', () => {
  test.each<
    [
      string,
      object,
      Parameters<typeof compareWithCard>[0]['normals'],
      Entry[],
      Record<string, boolean | undefined>,
    ]
  >([
    ['nothing measured says nothing', CARD, [], [], {}],
    [
      'a switch within 3 psi is the same',
      CARD,
      usualOf({ cutIn: 41, cutOut: 59 }),
      [],
      { 'switch.cutIn': false, 'switch.cutOut': false },
    ],
    ['a switch 4 psi off is not', CARD, usualOf({ cutIn: 44 }), [], { 'switch.cutIn': true }],
    ['amps are held against the most', CARD, usualOf({ amps: 10.1 }), [], { 'pump.maxAmps': true }],
    ['amps under it are as they should be', CARD, usualOf({ amps: 7.9 }), [], { 'pump.maxAmps': false }],
    ['what is not written is not judged', {}, usualOf({ amps: 7.9 }), [], { 'pump.maxAmps': undefined }],
    [
      'a precharge that somebody read',
      CARD,
      [],
      [reading(1, { what: 'precharge', value: '31 psi' })],
      { 'tank.precharge': true },
    ],
    [
      'a precharge that a check put right since',
      CARD,
      [],
      [
        reading(1, { what: 'precharge', value: '31 psi' }),
        reading(2, {
          kind: 'check',
          check: 'precharge',
          outcome: 'put-right',
          value: '31 psi',
          left: '38 psi',
        }),
      ],
      { 'tank.precharge': false },
    ],
    [
      'a static level within the seasons',
      CARD,
      [],
      [reading(1, { what: 'static-level', value: '14 m' })],
      { 'hole.staticLevel': false },
    ],
    [
      'volts a tenth off',
      CARD,
      [],
      [reading(1, { what: 'volts-resting', value: '206 V' })],
      { 'pump.volts': true },
    ],
    [
      'a flow by bucket is set beside and not judged',
      { pump: { rated: '10 gpm' } },
      [],
      [reading(1, { what: 'flow', value: '6 gpm' })],
      { 'pump.rated': undefined },
    ],
    [
      'a reading of another pump is not this one’s',
      { pumps: { p1: { pump: { maxAmps: '5 A' } }, p2: { pump: { maxAmps: '9 A' } } } },
      [],
      [reading(1, { what: 'amps', value: '6 A', pump: 'p2' }), reading(2, { what: 'amps', value: '7 A' })],
      { 'pumps.p2.pump.maxAmps': false },
    ],
  ])('%s', (_name, card, usual, entries, differs) => {
    const beside = compareWithCard({ card: cardOf(card), normals: usual, entries });
    expect(Object.fromEntries(beside.map((one) => [one.key, one.differs]))).toEqual(differs);
  });

  test('has the newest of each kind, newest first, and leaves out what was put right', () => {
    const entries = [
      reading(1, { what: 'cut-in', value: '30 psi' }),
      reading(2, { what: 'cut-in', value: '42 psi', from: 'sensors' }),
      reading(3, { what: 'cut-in', value: '39 psi', replaces: 'e1' }),
      reading(4, { what: 'cut-in', value: '40 psi', pinned: true }),
    ];
    const [cutIn] = compareWithCard({ card: cardOf(CARD), normals: usualOf({ cutIn: 41 }), entries });
    const reported = cutIn!.measured.map(({ from, value, by }) => [from, Math.round(value / PSI), by]);
    expect(reported).toEqual([
      ['pinned', 40, 'Ines'],
      ['hand', 39, 'Ines'],
      ['sensors', 42, 'Ines'],
      ['learned', 41, undefined],
    ]);
  });
});

describe('said', () => {
  const beside = compareWithCard({
    card: cardOf(CARD),
    normals: usualOf({ amps: 7.9, cutIn: 41, cutOut: 59 }),
    entries: [reading(1, { what: 'precharge', value: '31 psi' })],
  });

  test('a switch by both its points', () => {
    expect(switchComparisonText(beside, 'us')).toBe(
      'on the card 40/60 psi, measured 41/59 psi (learned from the readings)',
    );
    expect(switchComparisonText(beside, 'metric')).toBe(
      'on the card 276/414 kPa, measured 283/407 kPa (learned from the readings)',
    );
    expect(switchComparisonText(beside.slice(0, 2), 'us')).toBeUndefined();
  });

  test('a figure, a most, and one that is not written', () => {
    const words = (key: string): string =>
      comparisonText(
        beside.find((one) => one.key === key)!,
        'us',
      );
    expect(words('tank.precharge')).toBe('on the card 38 psi, measured 31 psi (read by a person)');
    expect(words('pump.maxAmps')).toBe(
      'on the card at most 9.8 A, measured 7.9 A (learned from the readings)',
    );
    const bare = compareWithCard({ card: cardOf({}), normals: usualOf({ amps: 7.9 }), entries: [] });
    expect(comparisonText(bare[0]!, 'us')).toBe(
      'not on the card, measured 7.9 A (learned from the readings)',
    );
  });
});
