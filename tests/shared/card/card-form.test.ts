/** The card as a form holds it: what was typed, its sections, and a name for a new well. */
import { describe, expect, test } from 'vitest';
import {
  digestOf,
  flatOf,
  nameFor,
  pumpsOf,
  sectionsOf,
  typedOf,
  withPump,
} from '../../../shared/card/card-form.ts';

describe('what was typed', () => {
  test('is lines for a list, and comes back as it was, a line with a semicolon too', () => {
    const flat = {
      owner: 'R. Alder',
      treatment: '["softener; 2018","lamp"]',
      'hole.checkValves': 'at the pump; 60 ft',
    };
    const typed = typedOf(flat);
    expect(typed).toEqual({
      owner: 'R. Alder',
      treatment: 'softener; 2018\nlamp',
      'hole.checkValves': 'at the pump\n60 ft',
    });
    expect(flatOf(typed)).toEqual(flat);
  });

  test('loses spaces at its ends and empty lines, and an empty field is none', () => {
    expect(flatOf({ owner: '  R. Alder ', firm: ' ', treatment: '\n lamp \n\n' })).toEqual({
      owner: 'R. Alder',
      treatment: 'lamp',
    });
  });
});

describe('sections', () => {
  const keysIn = (flat: Record<string, string>, title: string): string[] =>
    sectionsOf(flat, pumpsOf(flat))
      .find((section) => section.title === title)!
      .fields.map(({ key }) => key);

  test.each<[string, Record<string, string>, string[]]>([
    ['nothing written: both ways are offered', {}, ['switch.points', 'switch.cutIn', 'switch.cutOut']],
    ['written by its name', { 'switch.points': '40/60' }, ['switch.points']],
    ['written by one point', { 'switch.cutOut': '60 psi' }, ['switch.cutIn', 'switch.cutOut']],
  ])('the switch, %s', (_name, flat, keys) => {
    const shown = keysIn(flat, 'Switch and relief valve');
    expect(shown.filter((key) => /points|cutIn|cutOut/.test(key))).toEqual(keys);
  });

  test('a second pump has sections of its own, and the first keeps what it had', () => {
    const { typed, pumps } = withPump({ 'pump.motor': '1 hp', control: 'float', owner: 'A' }, ['p1']);
    expect(typed).toEqual({ 'pumps.p1.pump.motor': '1 hp', 'pumps.p1.control': 'float', owner: 'A' });
    expect(withPump(typed, pumps).pumps).toEqual(['p1', 'p2', 'p3']);
    const titles = sectionsOf({}, pumps).map(({ title }) => title);
    expect(titles.slice(1, 3)).toEqual(['Pump 1', 'Pump 2']);
    expect(titles.filter((title) => title.startsWith('Control '))).toEqual([
      'Control 1',
      'Control 2',
      'Control box and protection 1',
      'Control box and protection 2',
    ]);
    expect(pumpsOf({ 'pumps.p3.pump.motor': '1 hp' })).toEqual(['p1', 'p2', 'p3']);
    expect(pumpsOf({})).toEqual(['p1']);
  });

  test('say in one line what they hold, choices in words', () => {
    const flat = { 'pump.kind': 'jet', 'pump.motor': '1 hp', 'pump.phase': '1' };
    const pump = sectionsOf(flat, ['p1']).find(({ title }) => title === 'Pump')!;
    expect(digestOf(pump, flat)).toBe('jet, above the ground · 1 hp · single-phase');
    expect(digestOf(pump, {})).toBe('');
  });
});

test.each([
  ['Barn by the creek', 'barn-by-the-creek'],
  ['  Änne’s well (no. 2) ', 'anne-s-well-no-2'],
  ['井戸', ''],
  ['x'.repeat(60), 'x'.repeat(40)],
])('a well called %j is kept as %j', (words, name) => expect(nameFor(words)).toBe(name));
