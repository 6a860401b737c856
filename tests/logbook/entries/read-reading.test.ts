import { describe, expect, test } from 'vitest';
import { readEntry } from '../../../src/logbook/entries/read-entry.ts';
import { readingSi } from '../../../src/logbook/entries/read-reading.ts';

const read = (body: Record<string, unknown>) =>
  readEntry({ kind: 'reading', well: 'orchard', ...body }, { id: 'e1', createdMs: Date.UTC(2026, 4, 2) });

describe('a reading is taken', () => {
  test.each<[Record<string, unknown>]>([
    [{ what: 'amps', value: '7.9 A', from: 'hand', with: 'clamp meter', clamp: '7.85 A', pump: 'p2' }],
    [{ what: 'static-level', value: '-2 ft', text: 'Flows over the casing.' }],
    [{ what: 'flow', value: '6.3 gpm', bucket: { volume: '5 gal', time: '48 s' } }],
    [
      {
        what: 'precharge',
        value: '37 psi',
        draw: { drawn: '5 gal', before: '58 psi', after: '44 psi', fellAway: true },
      },
    ],
    [{ what: 'winding', value: '3.2 ohm', where: 'yellow to black' }],
    [{ what: 'insulation', value: '500 megohm', where: 'leads to ground' }],
    [{ what: 'capacitor', value: '105 uF', pinned: true }],
    [{ what: 'volts-running', value: '231 V' }],
    [{ what: 'fill-time', value: '95 s', from: 'sensors' }],
  ])('%j', (body) => expect(read(body)).toMatchObject({ entry: { body } }));
});

describe('a reading is refused', () => {
  test.each<[Record<string, unknown>, string]>([
    [{ what: 'amps' }, 'value must be given'],
    [{ what: 'amps', value: '7.9' }, 'value must be a current in A'],
    [{ what: 'amps', value: '7.9 V' }, 'value must be a current in A'],
    [{ what: 'colour', value: '7.9 A' }, 'what must be one of'],
    [{ what: 'precharge', value: '380 psi' }, 'value must be between 0 and 300 psi'],
    [{ what: 'capacitor', value: '105 F' }, 'value must be a capacitance in uF'],
    [{ what: 'amps', value: '7.9 A', pump: 'left' }, 'pump must be a pump such as p1'],
    [{ what: 'amps', value: '7.9 A', pinned: 'yes' }, 'pinned must be true or false'],
    [
      { what: 'flow', value: '63 gpm', bucket: { volume: '5 gal', time: '48 s' } },
      'value must be the volume',
    ],
    [{ what: 'flow', value: '6.3 gpm', bucket: { volume: '5 gal' } }, 'bucket.time must be given'],
    [
      { what: 'amps', value: '6.3 A', bucket: { volume: '5 gal', time: '48 s' } },
      'bucket is allowed for a flow',
    ],
    [
      { what: 'flow', value: '6.3 gpm', draw: { drawn: '5 gal', before: '58 psi', after: '44 psi' } },
      'draw is allowed for a precharge',
    ],
  ])('%j', (body, says) => {
    const found = read(body);
    expect('problem' in found ? found.problem : 'taken').toContain(says);
  });
});

test('a kept reading is read back in SI, and one of another age is passed over', () => {
  expect(readingSi({ what: 'insulation', value: '500 megohm' })).toEqual({ what: 'insulation', si: 5e8 });
  expect(readingSi({ what: 'amps', value: 'about eight' })).toBeUndefined();
});
