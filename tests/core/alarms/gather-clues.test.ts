/**
 * Causes are weighed by all that is known: the same finding with another clue beside it leads
 * elsewhere, and says why.
 */
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../shared/text/en/alarms/kinds.ts';
import { gatherClues } from '../../../src/core/alarms/gather-clues.ts';
import { reweighByClues } from '../../../src/core/alarms/reweigh-by-clues.ts';
import type { Active } from '../../../src/core/alarms/evaluation.ts';
import type { Scene } from '../../../src/core/alarms/scene.ts';
import { houseCard, kit, normal, PSI, T0, type KitOptions } from './scene-kit.ts';

const HOUR = 3_600_000;

describe('the lead', () => {
  const dead = (more: string): string => `rest 45psi ${more} | rest 36psi ${more} x5`;
  it.each<[string, string, Cause, Cause[], KitOptions?]>([
    ['a dead pump with no voltage', dead('2V'), 'power-lost', ['switch-out-of-set']],
    ['the same with voltage', dead('231V'), 'switch-contacts-open', ['power-lost', 'breaker-open']],
    ['a dead pump in frost', dead('-4C'), 'frozen', []],
    ['a dead pump in summer', dead('24C'), 'power-lost', ['frozen']],
    [
      'no rise, low amps, and little water over the pump',
      'rest 42psi 0.5m | run 4.4A 38psi 0.5m x4',
      'low-well',
      ['closed-valve'],
    ],
    [
      'a jet pump that lifts nothing',
      'rest 42psi | run 4.4A 38psi x4',
      'lost-prime',
      [],
      { card: houseCard({ pump: { kind: 'jet' } }) },
    ],
    [
      'a submersible pump that lifts nothing',
      'rest 42psi | run 4.4A 38psi x4',
      'low-well',
      ['lost-prime'],
      { card: houseCard({ pump: { kind: 'submersible' } }) },
    ],
    [
      'a booster that lifts nothing draws from a store and no well',
      'rest 42psi | run 4.4A 38psi x4',
      'store-empty',
      ['low-well'],
      { card: houseCard({ pump: { kind: 'booster' } }) },
    ],
    [
      'the same with a store that is full',
      'rest 42psi 1.5st | run 4.4A 38psi 1.5st x4',
      'lost-prime',
      ['low-well', 'store-empty'],
      { card: houseCard({ pump: { kind: 'booster' } }) },
    ],
    [
      'short fills of a plain tank, which has no bladder',
      'cycle 30s 8A 40-60psi every 1min x6',
      'tank-air-lost',
      ['bladder-burst'],
      { card: houseCard({ tank: { kind: 'plain', volumeL: 167 } }) },
    ],
    ['pressure lost with strong current', 'rest 45psi | run 8.6A 30psi x20', 'broken-pipe', ['lost-prime']],
    ['pressure lost with weak current', 'rest 45psi | run 7A 30psi x20', 'worn-pump', ['lost-prime']],
    ['short fills across the whole band', 'cycle 30s 8A 40-60psi every 1min x6', 'tank-air-lost', []],
    [
      'the same, though the tank was well by its last twelve fills',
      'cycle 30s 8A 40-60psi every 1min x6',
      'tank-air-lost',
      [],
      { water: { prechargeKpa: 262, normalPrechargeKpa: 262 } },
    ],
    [
      'less current and longer fills: what fills delivered before is older',
      'cycle 112s 7.3A 40-60psi every 480min x30',
      'worn-pump',
      [],
      { water: { deliveryRatio: 0.99 } },
    ],
    [
      'short runs across little of the band',
      'cycle 30s 8A 40-46psi every 1min x6',
      'switch-chatter',
      [],
      { water: { prechargeKpa: 262, normalPrechargeKpa: 262 } },
    ],
    [
      'loss at rest',
      'day 12 cycles 1300s leak 400 x3',
      'leak',
      [],
      { water: { deliveryRatio: 0.97, dayLoss: { lPerH: 17, fallKpaPerH: 20, deliveryFraction: 0.01 } } },
    ],
    [
      'loss at rest, and more of it in runs',
      'day 12 cycles 1300s leak 400 x3',
      'drop-pipe-leak',
      [],
      { water: { deliveryRatio: 0.85, dayLoss: { lPerH: 17, fallKpaPerH: 20, deliveryFraction: 0.01 } } },
    ],
    [
      'a large loss that runs show too',
      'day 12 cycles 1300s leak 4000 x3',
      'leak',
      [],
      { water: { deliveryRatio: 0.85, dayLoss: { lPerH: 170, fallKpaPerH: 200, deliveryFraction: 0.12 } } },
    ],
    [
      'one of three phases that brings no pressure',
      'rest 45psi | run 8A 30psi x20',
      'broken-pipe',
      ['wrong-rotation'],
    ],
  ])('%s', (_name, text, lead, without, options) => {
    const { events } = kit(options).play(text);
    const causes = events[0]!.causes!.map(({ cause }) => cause);
    expect(causes[0]).toBe(lead);
    for (const cause of without) expect(causes).not.toContain(cause);
  });
});

function sceneWith(change: { pump?: object; well?: object; resetAtMs?: number }): Scene {
  const card = houseCard({ pump: { kind: 'submersible', installed: '2010-03-02' } });
  const baseline = {
    atMs: T0,
    pinned: false,
    amps: normal(8, 0.05),
    cutInKpa: normal(40 * PSI, 2),
    cutOutKpa: normal(60 * PSI, 2),
    ranLowS: normal(100, 4),
  };
  const pump = {
    index: 0,
    card: card.pumps[0]!,
    cycles: [],
    startsToday: 0,
    baseline,
    pinned: baseline,
    ...change.pump,
  };
  const well = {
    card,
    minutes: [],
    days: [],
    dayStartedMs: T0,
    nodes: [],
    channels: [],
    water: {},
    ...change.well,
  };
  // A clue reads a few fields of a scene; the others are of no matter here.
  return {
    atMs: T0 + 24 * HOUR,
    trigger: 'minute',
    well,
    pump,
    pumps: [pump],
    ...(change.resetAtMs !== undefined && { resetAtMs: change.resetAtMs }),
  } as unknown as Scene;
}

const cycle = (more: object): object => ({
  pump: 0,
  startedMs: T0 + 20 * HOUR,
  stoppedMs: T0 + 20 * HOUR + 100_000,
  ranS: 100,
  restedS: 3600,
  readings: 100,
  amps: 8,
  cutInKpa: 40 * PSI,
  cutOutKpa: 60 * PSI,
  flags: [],
  ...more,
});

describe('cluesOf', () => {
  const cycles = (more: object): { pump: object } => ({ pump: { cycles: [1, 2, 3].map(() => cycle(more)) } });
  it.each<[string, Parameters<typeof sceneWith>[0], Record<string, unknown>]>([
    ['what the card says', {}, { pumpKind: 'submersible', phase: 1, ageYears: 16 }],
    ['amps against usual', cycles({ amps: 8.4 }), { ampsShare: 1.05 }],
    ['a late rise: 5 s would do for 7 of 138 kPa', cycles({ riseDelayS: 25 }), { lateRiseS: 25 }],
    ['a prompt rise', cycles({ riseDelayS: 4 }), { promptRiseS: 4 }],
    ['neither late nor prompt', cycles({ riseDelayS: 16 }), { lateRiseS: undefined, promptRiseS: undefined }],
    [
      'after short rests nothing is known of the pipe',
      cycles({ riseDelayS: 25, restedS: 60 }),
      { lateRiseS: undefined },
    ],
    ['slow sampling blurs the rise', cycles({ riseDelayS: 25, readings: 5 }), { lateRiseS: undefined }],
    ['a run that broke off', cycles({ flags: ['no-cut-out'], cutOutKpa: 50 * PSI }), { brokeOffKpa: 345 }],
    [
      'failed and good starts',
      { pump: { cycles: [cycle({ flags: ['failed-start'], ranS: 2 }), cycle({})] } },
      { failedStarts: 1, goodStarts: 1 },
    ],
    ['after a visit', { resetAtMs: T0 + 20 * HOUR }, { sinceVisitH: 4 }],
    ['long after one', { resetAtMs: T0 - 80 * HOUR }, { sinceVisitH: undefined }],
    [
      'water',
      { well: { water: { deliveryRatio: 0.8, prechargeKpa: 100, normalPrechargeKpa: 262 } } },
      { deliveryShare: 0.8, airShare: 0.55 },
    ],
    [
      'a leak without a tank on the card is no amount',
      { well: { card: houseCard({ tank: { kind: 'captive-air' } }), days: [{ leakLPerDay: 200 }] } },
      { leakLPerDay: undefined },
    ],
  ])('%s', (_name, change, wanted) => {
    const clues = gatherClues(sceneWith(change));
    for (const [figure, value] of Object.entries(wanted))
      expect([figure, clues[figure]]).toEqual([figure, value]);
  });
});

describe('withClues', () => {
  const finding = (causes: Active['causes']): Active => ({
    is: 'active',
    sinceMs: T0,
    reason: 'as-written',
    figures: { text: 'It leaks.' },
    evidence: { leakLPerDay: 200 },
    causes,
  });
  const leak = finding([
    { cause: 'leak', weight: 0.4 },
    { cause: 'open-tap', weight: 0.3 },
    { cause: 'check-valve', weight: 0.12 },
    { cause: 'drop-pipe-leak', weight: 0.1 },
    { cause: 'pitless-leak', weight: 0.08 },
  ]);

  it('an empty pipe speaks for the valve in the well; what can’t be told apart shares its weight', () => {
    const late = sceneWith({ pump: { cycles: [1, 2, 3].map(() => cycle({ riseDelayS: 25 })) } });
    const { causes, evidence } = reweighByClues('leak', leak, late);
    const weights = Object.fromEntries(causes.map(({ cause, weight }) => [cause, weight]));
    expect(weights['check-valve']).toBe(weights['drop-pipe-leak']);
    expect(weights['check-valve']).toBe(weights['pitless-leak']);
    expect(weights['check-valve']! * 3).toBeGreaterThan(weights['leak']! + weights['open-tap']!);
    expect(evidence).toMatchObject({ leakLPerDay: 200, lateRiseS: 25 });
  });

  const slow = (levelFallM: number): Active => ({
    is: 'active',
    sinceMs: T0,
    reason: 'as-written',
    figures: { text: 'It is slow.' },
    evidence: { levelFallM },
    causes: [
      { cause: 'worn-pump', weight: 0.5 },
      { cause: 'low-well', weight: 0.3 },
      { cause: 'closed-valve', weight: 0.2 },
    ],
  });
  it.each([
    [9, 'low-well'],
    [3.5, 'low-well'],
    [2, 'worn-pump'],
    [0, 'worn-pump'],
  ])('a slow pump whose water has sunk by %s m: %s', (fallM, lead) => {
    const high = { minutes: [{ atMs: T0 + 24 * HOUR, pumps: [], levelM: { mean: 12 } }] };
    expect(reweighByClues('slow-fill', slow(fallM), sceneWith({ well: high })).causes[0]!.cause).toBe(lead);
  });

  it('a pump that turns slowly after a visit: two of its three lines may be swapped', () => {
    const brings: Active = {
      is: 'active',
      sinceMs: T0,
      reason: 'as-written',
      figures: { text: 'Pressure does not rise.' },
      evidence: { phase: 3 },
      causes: [
        { cause: 'broken-pipe', weight: 0.4 },
        { cause: 'open-tap', weight: 0.3 },
        { cause: 'wrong-rotation', weight: 0.1 },
      ],
    };
    const lead = (change: object): Cause =>
      reweighByClues('long-run', brings, sceneWith(change)).causes[0]!.cause;
    expect([lead({}), lead({ resetAtMs: T0 + 20 * HOUR })]).toEqual(['broken-pipe', 'wrong-rotation']);
  });

  it('what bears on no named cause is not evidence', () => {
    const { evidence } = reweighByClues(
      'leak',
      leak,
      sceneWith({ well: { minutes: [{ atMs: T0 + 24 * HOUR, pumps: [], temperatureC: { mean: 20 } }] } }),
    );
    expect(evidence).toEqual({ leakLPerDay: 200 });
  });

  it('a finding without causes is left as it is', () => {
    const bare = finding([]);
    expect(reweighByClues('leak', bare, sceneWith({}))).toBe(bare);
  });
});
