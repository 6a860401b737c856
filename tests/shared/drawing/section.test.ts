import { describe, expect, test } from 'vitest';
import { placeLabels } from '../../../shared/drawing/place-labels.ts';
import { drawSection, type SectionFacts } from '../../../shared/drawing/section.ts';
import { drawTrend } from '../../../shared/drawing/trend.ts';

const NONE: SectionFacts = { checkValvesM: [], checkValveLocations: [] };
const FULL: SectionFacts = {
  wellDepthM: 100,
  casingDepthM: 20,
  staticLevelM: 10,
  pumpingLevelM: 30,
  setDepthM: 60,
  pump: 'in-the-well',
  pumpText: '1 hp',
  dropPipeText: '1 in',
  checkValvesM: [58],
  checkValveLocations: [],
  tankText: '44 gal',
  switchText: 'on at 40 psi, off at 60 psi',
};

/** Where a label's leader begins: the depth as it is drawn. */
function drawnAt(facts: SectionFacts, label: string): number {
  const { shapes } = drawSection(facts, 'metric');
  const texts = shapes.filter(({ element, attrs }) => element === 'text' && attrs['class'] === 'label');
  const leaders = shapes.filter(({ attrs }) => attrs['class'] === 'leader');
  const at = texts.filter(({ attrs }) => attrs['x'] === 268).findIndex(({ text }) => text?.startsWith(label));
  return Number(/^M\S+ (\S+)L/.exec(String(leaders[at]?.attrs['d']))?.[1]);
}

describe('drawSection', () => {
  test('depths are to scale', () => {
    const [casing, level, pump, bottom] = ['Casing', 'Static level', 'Pump set', 'Bottom'].map((label) =>
      drawnAt(FULL, label),
    );
    const perM = (bottom! - level!) / 90;
    expect(casing! - level!).toBeCloseTo(10 * perM, 0);
    expect(pump! - level!).toBeCloseTo(50 * perM, 0);
  });

  test('what is known is said, and nothing is missing', () => {
    const { unknown, contradictions, label, toScale } = drawSection(FULL, 'us');
    expect(unknown).toEqual([]);
    expect(contradictions).toEqual([]);
    expect(toScale).toBe(true);
    expect(label).toContain('Pumping level 98 ft, well drawdown 66 ft');
  });

  test('what is not known is named, drawn broken, and never invented', () => {
    const { unknown, toScale, shapes } = drawSection(NONE, 'us');
    expect(toScale).toBe(false);
    expect(unknown).toEqual([
      'depth of the hole',
      'casing depth',
      'static level',
      'pumping level',
      'kind of pump',
      'depth of the pump',
      'drop pipe',
      'check valves',
      'pressure tank',
      'pressure switch',
    ]);
    const kinds = shapes.map(({ attrs }) => attrs['class']);
    for (const kind of ['pump', 'water', 'level', 'valve', 'bottom', 'pipe', 'tank'])
      expect(kinds).not.toContain(kind);
  });

  test.each([
    [
      { wellDepthM: 50 },
      'The card sets the pump at 197 ft and the bottom of the hole at 164 ft. One is wrong.',
    ],
    [
      { casingDepthM: 120 },
      'The card has casing to 394 ft and the bottom of the hole at 328 ft. One is wrong.',
    ],
    [{ staticLevelM: 40 }, 'The static level of 131 ft is below the pumping level of 98 ft.'],
  ])('%j can’t be right', (more, sentence) =>
    expect(drawSection({ ...FULL, ...more }, 'us').contradictions).toContain(sentence),
  );

  test('a well that flows by itself has its level above the ground', () => {
    expect(drawSection({ ...FULL, staticLevelM: -1 }, 'metric').label).toContain(
      'Static level 1 m above ground',
    );
  });

  test('a pump above ground has its pipe in the well and no pump there', () => {
    const { label } = drawSection({ ...FULL, pump: 'above-ground' }, 'us');
    expect(label).toContain('Pipe in the well to 197 ft');
    expect(label).not.toContain('Pump set');
  });
});

test.each([
  ['apart stay where they are', [10, 60], [5, 55]],
  ['over each other move apart, in order', [50, 50, 51], [45, 55, 65]],
  ['at the lower end move up', [95, 99], [80, 90]],
  ['out of order keep their order of the question', [60, 10], [55, 5]],
])('labels %s', (_, at, tops) => {
  expect(
    placeLabels(
      at.map((one) => ({ center: one, size: 10 })),
      { from: 0, to: 100 },
    ),
  ).toEqual(tops);
});

describe('drawTrend', () => {
  const trend = (values: (number | null)[]) =>
    drawTrend({ title: 'Amps', values, unit: 'A', decimals: 1, from: 'March', to: 'May', fromZero: false });

  test('a hole stays a hole, and a day alone is a dot', () => {
    const drawn = trend([1, 2, null, 3, null, 2]);
    expect(drawn?.label).toBe('Amps, March to May: 1 to 3 A, last 2.');
    expect(
      String(drawn?.shapes.find(({ attrs }) => attrs['class'] === 'trend')?.attrs['d']).match(/M/g),
    ).toHaveLength(3);
    expect(drawn?.shapes.filter(({ element }) => element === 'circle')).toHaveLength(2);
  });

  test('one value is no trend, and ten years are drawn in as many steps as can be seen', () => {
    expect(trend([null, 1, null])).toBeUndefined();
    const path = trend(Array.from({ length: 3_650 }, (_, i) => i))?.shapes.find(
      ({ attrs }) => attrs['class'] === 'trend',
    );
    expect(String(path?.attrs['d']).split('L').length).toBeLessThanOrEqual(320);
  });
});
