/**
 * What is wrong with card or sensor is told of card or sensor, and nothing of the well: played
 * through the engine, each with all that was told by its end.
 */
import { describe, expect, it } from 'vitest';
import { checksOf } from '../../../src/core/well/checks.ts';
import { playMotor, type Play } from './motor-well.ts';

const PSI = 6.894757293168;
const motor = { motor: '1 hp', volts: '230 V', phase: 1, rated: '10 gpm' };

/** Alarm and first cause of what was raised, in order. */
function reported(play: Play): string[] {
  return playMotor(play)
    .alarms.filter(({ state }) => state === 'raised')
    .map(({ alarm, causes }) => `${alarm} ${causes?.[0]?.cause ?? '-'}`);
}

describe('a wrong card from the first day', () => {
  it.each<[string, Record<string, unknown>, string]>([
    ['half the amps', { pump: { ...motor, maxAmps: '4.9 A' } }, 'sensor-fault bad-card'],
    ['the plate of a 3 hp motor', { pump: { ...motor, maxAmps: '19 A' } }, 'sensor-fault bad-card'],
    ['another switch', { switch: { cutIn: '30 psi', cutOut: '50 psi' } }, 'sensor-fault bad-card'],
    [
      'kPa for psi',
      { switch: { cutIn: '40 kPa', cutOut: '60 kPa' }, relief: '75 kPa' },
      'sensor-fault bad-card',
    ],
    ['precharge over cut-in', { tank: { volume: '44 gal', precharge: '45 psi' } }, 'sensor-fault bad-card'],
    [
      'a tank of ten times its volume',
      { tank: { volume: '440 gal', precharge: '38 psi' } },
      'sensor-fault bad-card',
    ],
    ['a tank of a tenth', { tank: { volume: '4 gal', precharge: '38 psi' } }, 'sensor-fault bad-card'],
  ])('%s', (_name, card, expected) => {
    expect(reported({ days: 2, everyS: 10, card })).toEqual([expected]);
  });

  it('one that is changed in the middle is asked anew', () => {
    const acts = [{ day: 6.5, card: { switch: { cutIn: '20 psi', cutOut: '40 psi' } } }];
    expect(reported({ days: 7.5, everyS: 10, acts })).toEqual(['sensor-fault bad-card']);
  });
});

describe('a sensor that is wrong', () => {
  it.each<[string, Play, string[]]>([
    ['psi sent as kilopascals', { days: 1, showKpa: (kpa) => kpa / PSI }, ['sensor-fault transducer-fault']],
    [
      'psi sent as pascals',
      { days: 1, showKpa: (kpa) => kpa / PSI / 1000 },
      ['sensor-fault transducer-fault'],
    ],
    ['absolute for gauge', { days: 1, showKpa: (kpa) => kpa + 101.3 }, ['sensor-fault transducer-fault']],
    ['stuck', { days: 8, showKpa: (kpa, day) => (day > 7 ? 300 : kpa) }, ['sensor-fault transducer-fault']],
    ['unplugged', { days: 9, showKpa: (kpa, day) => (day > 7 ? 0 : kpa) }, ['sensor-fault transducer-fault']],
    [
      'a drift of a quarter psi a day',
      { days: 16, showKpa: (kpa, day) => kpa + Math.max(0, day - 7) * 1.8 * 2 },
      ['switch-shift switch-out-of-set'],
    ],
    [
      'a clamp that slips off',
      { days: 8, showAmps: (amps, day) => (day > 7 ? 0 : amps) },
      ['sensor-fault clamp-off'],
    ],
    [
      'a clamp round two conductors',
      { days: 1, showAmps: (amps) => 0.01 * amps },
      ['sensor-fault clamp-off'],
    ],
    ['a clamp that reads double', { days: 1, showAmps: (amps) => 2 * amps }, ['sensor-fault bad-card']],
  ])('%s', (_name, play, expected) => {
    expect(reported({ everyS: 10, ...play })).toEqual(expected);
  });
});

describe('checksOf', () => {
  it('shows a sound well as agreeing with its card', () => {
    const states = checksOf(playMotor({ days: 0.5, everyS: 10, volts: true }).well);
    expect(states.filter(({ state }) => state !== 'agrees').map(({ what }) => what)).toEqual(['time-zone']);
  });

  it('shows a clamp that sees nothing', () => {
    const { well } = playMotor({ days: 1, everyS: 10, showAmps: (amps) => 0.01 * amps });
    expect(checksOf(well)).toContainEqual({ what: 'clamp-place', pump: 'p1', state: 'differs' });
  });
});
