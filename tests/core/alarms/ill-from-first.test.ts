/**
 * Wells that were ill from the first day, and small tanks that were not: nothing is known to
 * compare with, and what is physically wrong is told all the same. Limits of starts: Water Systems
 * Council tank standard (under 300 in 24 h for small motors; quoted), "Tank Selection by the
 * Numbers", Water Well Journal (as few as 50 above 5 hp); 100 from 1 hp on is from memory of trade
 * handbooks.
 */
import { describe, expect, it } from 'vitest';
import { houseCard, normal, play, usualBaseline, type KitOptions } from './scene-kit.ts';

const unknown: KitOptions = { baseline: null };
const flow = { ratedLPerS: 0.63 };

describe('ill from the first day', () => {
  it.each<[string, string, string[], KitOptions]>([
    [
      'starts over the motor’s limit, two days running',
      'day 130 cycles 12000s x2',
      ['day 2 starts-over-limit raised soon leak'],
      unknown,
    ],
    [
      'far over it: within the day',
      [5, 8, 11, 5, 8, 11, 5, 8, 11].map((min) => `cycle 60s 8A 40-60psi every ${min}min x18`).join(' | '),
      ['1175 min starts-over-limit raised soon leak'],
      { ...unknown, kinds: ['starts-over-limit'] },
    ],
    [
      'a tank without air, by what its card says it holds',
      'cycle 9s 8A 40-60psi every 0.5min x14',
      ['6 min tank-air-lost raised soon tank-air-lost'],
      { ...unknown, card: houseCard({ pump: flow }), kinds: ['tank-air-lost'] },
    ],
    [
      'contacts that stuck before anybody looked',
      'run 8A 45psi to 60psi x3 | run 8A 72psi x20',
      [
        '6 min long-run raised now switch-contacts-stuck',
        '10 min over-pressure raised now switch-contacts-stuck',
      ],
      unknown,
    ],
  ])('%s', (_name, text, reported, options) => {
    expect(play(text, options)).toEqual(reported);
  });
});

describe('a small tank', () => {
  const tiny = houseCard({
    pump: { ...flow, motorW: 560 },
    tank: { kind: 'captive-air', volumeL: 7.6, prechargeKpa: 262 },
  });
  const usual = usualBaseline({
    ranS: normal(7, 1),
    ranLowS: normal(6, 0.5),
    cyclesPerDay: normal(150, 20, 14),
    ranSPerDay: normal(1050, 200, 14),
  });
  it.each<[string, string, string[], KitOptions]>([
    [
      'makes many short runs, as ever, within what its motor stands',
      'cycle 7s 8A 40-60psi every 0.5min x40 | rest 50psi x60 | day 160 cycles 1100s x5',
      [],
      { card: tiny, baseline: usual },
    ],
    [
      'the same on a motor that does not: that is said, and nothing of the tank’s air',
      'cycle 7s 8A 40-60psi every 0.5min x40 | rest 50psi x60 | day 160 cycles 1100s x5',
      ['1440 min starts-over-limit raised soon -'],
      { card: houseCard({ tank: tiny.tank!, pump: flow }), baseline: usual },
    ],
  ])('%s', (_name, text, reported, options) => {
    expect(play(text, options)).toEqual(reported);
  });
});
