import { describe, expect, test } from 'vitest';
import { readCard } from '../../../src/core/domain/read-card.ts';
import type { ReadingKind } from '../../../shared/entries/entry-fields.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { sectionFacts, unitsOfCard } from '../../../src/logbook/visits/section-facts.ts';

const card = (more: object) => {
  const read = readCard({ well: 'mill', ...more });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
};
const level = (what: ReadingKind, value: string, atMs: number): Entry => ({
  id: `${what} ${atMs}`,
  well: 'mill',
  kind: 'reading',
  atMs,
  createdMs: atMs,
  body: { what, value },
});

describe('sectionFacts', () => {
  test('of a well of which nothing is known are none', () => {
    expect(sectionFacts(undefined, [], 'us')).toEqual({ checkValvesM: [], checkValveLocations: [] });
    expect(sectionFacts(card({}), [], 'us')).toEqual({ checkValvesM: [], checkValveLocations: [] });
  });

  test('come from the card, and levels from the newest reading', () => {
    const facts = sectionFacts(
      card({
        pump: { kind: 'submersible', motor: '1 hp', volts: '230 V', wires: 3, setDepth: '180 ft' },
        hole: {
          depth: '300 ft',
          casingDepth: '60 ft',
          casing: '6-5/8 in',
          staticLevel: '40 ft',
          dropPipe: '1-1/4 in',
          checkValves: ['170 ft', 'at the pump'],
        },
        switch: { cutIn: '40 psi', cutOut: '60 psi' },
        tank: { volume: '44 gal', precharge: '38 psi' },
      }),
      [
        level('static-level', '42 ft', 2),
        level('static-level', '41 ft', 1),
        level('pumping-level', '90 ft', 1),
      ],
      'us',
    );
    expect(facts).toMatchObject({
      pump: 'in-the-well',
      pumpText: '1 hp, 230 V, 3 wires',
      dropPipeText: '1-1/4 in',
      casingMaterial: '6-5/8 in',
      checkValveLocations: ['at the pump'],
      tankText: '44 gal, precharge 38 psi',
      switchText: 'on at 40 psi, off at 60 psi',
    });
    // 1 ft is 0.3048 m (international foot, 1959).
    expect(facts.staticLevelM).toBeCloseTo(42 * 0.3048, 6);
    expect(facts.wellDepthM).toBeCloseTo(300 * 0.3048, 6);
    expect(facts.setDepthM).toBeCloseTo(180 * 0.3048, 6);
  });

  test('a pump of which nobody said what it is hangs nowhere', () => {
    expect(sectionFacts(card({ pump: { setDepth: '180 ft' } }), [], 'us').pump).toBeUndefined();
    expect(sectionFacts(card({ pump: { kind: 'jet' } }), [], 'us').pump).toBe('above-ground');
  });
});

test.each([
  [{ pump: { setDepth: '180 ft' } }, 'us'],
  [{ pump: { setDepth: '55 m' }, switch: { cutIn: '2.8 bar' } }, 'metric'],
  [{ well: 'mill' }, 'us'],
  [undefined, 'us'],
])('the units of %j are %s', (written, units) => expect(unitsOfCard(written)).toBe(units));
