/**
 * Healthy runs, then faulty ones: an alarm began with a faulty run, and what it tells of runs is of
 * those since then.
 */
import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import { houseCard, kit, normal, usualBaseline, type KitOptions } from './scene-kit.ts';

const { ranLowS: _ranLowS, ...noFills } = usualBaseline();
const threePhase = houseCard({ pump: { phase: 3, maxAmps: 9.8 } });
const { tank: _tank, ...noTank } = houseCard();

type Evidence = NonNullable<AlarmEvent['evidence']>;

/** The evidence is what a raised alarm names of the faulty runs alone: 45 psi is 310 kPa. */
const SCENES: [AlarmKind, string, string, KitOptions?, Evidence?][] = [
  ['amps-high', 'cycle 120s 8A 40-60psi every 60min x30', 'cycle 120s 8.4A 40-60psi every 60min x30'],
  [
    'amps-low',
    'cycle 120s 8A 40-60psi every 60min x30',
    'cycle 120s 7.6A 40-60psi every 60min x30',
    { baseline: noFills },
  ],
  [
    'amps-low',
    // One run that is off by chance is not the beginning.
    'cycle 120s 8A 40-60psi every 60min x20 | cycle 120s 7A 40-60psi every 60min | cycle 120s 8A 40-60psi every 60min x5',
    'cycle 120s 7.5A 40-60psi every 60min x30',
    { baseline: noFills },
  ],
  ['amps-high', 'cycle 120s 8A 40-60psi every 60min x10', 'cycle 120s 11A 40-60psi every 60min x10'],
  [
    'leg-imbalance',
    'cycle 120s 8/8/8A 40-60psi every 60min x30',
    'cycle 120s 8.9/8/7.1A 40-60psi every 60min x10',
    { card: threePhase },
  ],
  [
    'leg-imbalance',
    'cycle 120s 8/8/8A 40-60psi every 60min x30',
    'cycle 120s 8.6/8/7.4A 40-60psi every 60min x30',
    { card: threePhase },
  ],
  [
    'switch-shift',
    'cycle 120s 8A 40-60psi every 60min x20',
    'cycle 120s 8A 45-66psi every 60min x20',
    {},
    { cutInKpa: 310, cutInWasKpa: 276, cutOutKpa: 455, cutOutWasKpa: 414 },
  ],
  [
    'switch-shift',
    'cycle 120s 8A 40-60psi every 60min x20',
    'cycle 120s 8A 44-60psi every 60min x20',
    {},
    { cutInKpa: 303, cutInWasKpa: 276, cutOutKpa: 414, cutOutWasKpa: 414 },
  ],
  [
    // The last run alone ends 2 psi lower, as a switch repeats: its cut-out has not moved.
    'switch-shift',
    'cycle 120s 8A 40-59.8psi every 60min x20',
    'cycle 120s 8A 36.5-59.8psi every 60min x6 | cycle 120s 8A 36.5-58psi every 60min',
    {},
    { cutInKpa: 252, cutInWasKpa: 276, cutOutKpa: 412, cutOutWasKpa: 414 },
  ],
  [
    'slow-fill',
    'cycle 100s 8A 40-60psi every 60min x40',
    'cycle 145s 8A 40-60psi every 60min x40',
    {},
    { fillS: 145, normalS: 100, times: 1.45 },
  ],
  [
    'short-cycling',
    'cycle 100s 8A 40-60psi every 30min x20',
    'cycle 20s 8A 40-60psi every 1min x20',
    { card: noTank },
  ],
  [
    'short-cycling',
    'cycle 100s 8A 40-60psi every 30min x20',
    'cycle 50s 8A 40-60psi every 20min x40',
    { card: noTank, baseline: usualBaseline({ ranS: normal(60, 5), ranLowS: normal(55, 4) }) },
  ],
  [
    'cut-out-not-reached',
    'cycle 120s 8A 40-60psi every 60min x20',
    'cycle 120s 8A 40-52psi every 60min x2 !no-cut-out | cycle 115s 8A 42-55psi every 60min x2 !no-cut-out',
  ],
];

describe('since', () => {
  it.each(SCENES)('%s: %s, then %s', (kind, healthy, faulty, options, evidence) => {
    const one = kit({ ...options, kinds: [kind] });
    one.play(healthy);
    const healthyEndMs = one.atMs;
    expect(one.said()).toEqual([]);
    one.play(faulty);
    const raised = one.events.find(({ alarm, state }) => alarm === kind && state === 'raised')!;
    const sinceMs = Date.parse(raised.since!);
    expect(sinceMs).toBeGreaterThanOrEqual(healthyEndMs);
    if (evidence) expect(raised.evidence).toMatchObject(evidence);
    const everyMs = 60_000 * Number(/every (\d+)min/.exec(faulty)![1]);
    const runs = Math.round((Date.parse(raised.at) - sinceMs) / everyMs + 0.5);
    for (const counted of ['runs', 'starts'] as const) {
      const value = raised.evidence?.[counted];
      if (typeof value === 'number') expect(value).toBeLessThanOrEqual(runs);
    }
  });
});
