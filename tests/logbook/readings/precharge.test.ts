import { describe, expect, test } from 'vitest';
import { calculatePrecharge, type PrechargeInput } from '../../../src/logbook/readings/precharge.ts';

const PSI = 6.894757293168;
const plainSwitch = { control: 'pressure-switch', tankKind: 'captive-air' } as const;

describe('prechargeToSet', () => {
  // Water Systems Council, "Pressure Tanks", 2007, p. 3: 2 psi below cut-in.
  test.each([
    [20, 18],
    [30, 28],
    [40, 38],
    [50, 48],
  ])('of a cut-in of %d psi is %d psi', (cutIn, target) => {
    const read = calculatePrecharge({ ...plainSwitch, writtenCutInKpa: cutIn * PSI });
    expect(read).toMatchObject({ is: 'calculated', from: 'card' });
    expect('kpa' in read && read.kpa / PSI).toBeCloseTo(target, 9);
  });

  test('follows the measured cut-in and not the written one', () => {
    const read = calculatePrecharge({
      ...plainSwitch,
      measuredCutInKpa: 36 * PSI,
      writtenCutInKpa: 40 * PSI,
    });
    expect(read).toMatchObject({ from: 'measured', cutInKpa: 36 * PSI });
    expect('kpa' in read && read.kpa / PSI).toBeCloseTo(34, 9);
  });

  test.each<[string, PrechargeInput, object]>([
    ['nothing is known', plainSwitch, { is: 'unknown' }],
    ['the cut-in is no more than 2 psi', { ...plainSwitch, writtenCutInKpa: 13 }, { is: 'unknown' }],
    ['the tank is plain', { ...plainSwitch, tankKind: 'plain', writtenCutInKpa: 276 }, { is: 'none' }],
    [
      'a drive holds the pressure',
      { ...plainSwitch, control: 'variable-speed', writtenCutInKpa: 276 },
      { is: 'by-manual', equipment: 'drive' },
    ],
    [
      'a valve throttles the pump',
      { ...plainSwitch, control: 'constant-pressure-valve', writtenCutInKpa: 276 },
      { is: 'by-manual', equipment: 'valve' },
    ],
  ])('is not reckoned where %s', (_why, facts, want) => expect(calculatePrecharge(facts)).toEqual(want));
});
