/** What ohms, megohms and microfarads of a motor say by themselves. */
import { describe, expect, test } from 'vitest';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { motorReading } from '../../../src/logbook/readings/motor-reading.ts';

const read = readCard({
  well: 'a',
  pump: {
    phase: 1,
    wire: { dropSize: '12 AWG', dropLength: '250 ft' },
    startCapacitor: '105 uF',
    runCapacitor: '35 uF',
  },
});
if ('problem' in read) throw new Error(read.problem);
const { card } = read;

type Body = EntryOf<'reading'>['body'];
const judged = (body: Body): string | undefined => motorReading(body, card)?.judgement;

describe('insulation', () => {
  // A motor maker's installation manual: in the well 2 megohm new, 0.5 to 2 good, less damaged.
  // Out of the water 200 and 10 (from memory).
  test.each<[string, Body['motor'], string]>([
    ['500 megohm', 'in-water', 'insulation-new'],
    ['2 megohm', 'in-water', 'insulation-new'],
    ['1.9 megohm', 'in-water', 'insulation-good'],
    ['0.5 megohm', 'in-water', 'insulation-good'],
    ['490 kohm', 'in-water', 'insulation-damaged'],
    ['0 ohm', undefined, 'insulation-damaged'],
    ['1 megohm', undefined, 'insulation-good'],
    ['250 megohm', 'out-of-water', 'insulation-new'],
    ['20 megohm', 'out-of-water', 'insulation-good'],
    ['2 megohm', 'out-of-water', 'insulation-damaged'],
  ])('of %s, %s: %s', (value, motor, judgement) => {
    expect(judged({ what: 'insulation', value, ...(motor && { motor }) })).toBe(judgement);
  });
});

describe('a winding', () => {
  test('is told without the wire there and back: 250 ft of 12 AWG has 0.79 ohm', () => {
    const facts = motorReading({ what: 'winding', value: '2.79 ohm', leads: 'yellow-black' }, card);
    expect(facts?.wireOhm).toBeCloseTo(0.794, 3);
    expect(facts?.motorOhm).toBeCloseTo(2, 2);
    expect(facts?.judgement).toBeUndefined();
  });

  test('of fewer ohms than its wire says that the card is wrong', () =>
    expect(judged({ what: 'winding', value: '0.7 ohm' })).toBe('less-than-the-wire'));

  test('says nothing by itself without the wire on the card', () =>
    expect(motorReading({ what: 'winding', value: '2.8 ohm', pump: 'p2' }, card)).toBeUndefined());
});

describe('a capacitor', () => {
  test.each<[string, Body['capacitor'], string | undefined]>([
    ['35 uF', 'run', 'capacitor-right'],
    ['31 uF', 'run', 'capacitor-off'],
    ['39 uF', 'run', 'capacitor-off'],
    ['126 uF', 'start', 'capacitor-right'],
    ['90 uF', 'start', 'capacitor-off'],
    ['35 uF', undefined, undefined],
  ])('of %s, %s: %s', (value, capacitor, judgement) => {
    expect(judged({ what: 'capacitor', value, ...(capacitor && { capacitor }) })).toBe(judgement);
  });
});

test('other readings say nothing here', () =>
  expect(motorReading({ what: 'amps', value: '8 A' }, card)).toBeUndefined());
