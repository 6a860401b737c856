/**
 * Starts as even as a clock: which are a loss, which are people's, and how many litres go by them.
 */
import { describe, expect, it } from 'vitest';
import type { AlarmKind } from '../../../../shared/text/en/alarms/kinds.ts';
import { newHabit } from '../../../../src/core/baseline/habit.ts';
import type { Cycle } from '../../../../src/core/cycles/cycle.ts';
import {
  regularStarts,
  lossFromStarts,
  type RegularStarts,
  type RestMemory,
} from '../../../../src/core/alarms/water/regular-starts.ts';
import type { PumpScene, Scene } from '../../../../src/core/alarms/scene.ts';
import { houseCard, kit, PSI, usualBaseline, type KitOptions } from '../scene-kit.ts';

const HOUR_S = 3600;

/**
 * Plays the rests one after another, fills of 125 s at 40-60 psi between them, from the hour in
 * which a day begins.
 */
function after(restsS: number[], change: Partial<Cycle> = {}, card = houseCard()): [Scene, RestMemory] {
  const pump: PumpScene = { index: 0, card: card.pumps[0]!, cycles: [], startsToday: 0, habit: newHabit() };
  const well = {
    card,
    minutes: [],
    days: [],
    dayStartedMs: 0,
    dayEndsMs: 8.64e7,
    date: '1970-01-01',
    nodes: [],
    channels: [],
    water: {},
  };
  const scene: Scene = {
    atMs: 0,
    trigger: 'cycle',
    well,
    pump: { ...pump, pinned: usualBaseline() },
    pumps: [],
  };
  scene.pumps.push(scene.pump);
  const memo: RestMemory = {};
  for (const restedS of restsS) {
    const startedMs = scene.atMs + restedS * 1000;
    const cycle: Cycle = {
      pump: 0,
      startedMs,
      stoppedMs: startedMs + 125_000,
      ranS: 125,
      restedS,
      readings: 125,
      cutInKpa: 40 * PSI,
      cutOutKpa: 60 * PSI,
      flags: [],
      ...change,
    };
    scene.atMs = cycle.stoppedMs;
    scene.cycle = cycle;
    scene.pump.cycles = [...scene.pump.cycles, cycle].slice(-40);
    regularStarts(scene, memo);
  }
  return [scene, memo];
}

/** So many hours of rests of `restS` after fills of 125 s. */
const hoursOf = (hours: number, restS: number): number[] =>
  Array.from({ length: Math.round((hours * HOUR_S) / (restS + 125)) }, () => restS);

describe('evenStarts', () => {
  it.each<[string, number[], Partial<RegularStarts> | undefined]>([
    ['rests of 320 s for a day', hoursOf(24, 320), { hours: 23, restS: 320 }],
    ['rests a switch scatters', hoursOf(24, 320).map((s, i) => s + ((i * 7) % 3) * 10), { restS: 340 }],
    ['draws shorten some of them', hoursOf(24, 320).map((s, i) => (i % 3 === 0 ? 90 : s)), { restS: 320 }],
    ['one longer rest ends it', [...hoursOf(20, 320), 700, ...hoursOf(5, 320)], { hours: 4 }],
    ['and its own hour is no such hour', [...hoursOf(24, 320), 700], undefined],
    [
      'two hours of watering hide nothing',
      [...hoursOf(10, 320), ...hoursOf(2, 60), ...hoursOf(12, 320)],
      { hours: 23 },
    ],
    ['five do', [...hoursOf(10, 320), ...hoursOf(5.5, 60), ...hoursOf(6, 320)], { hours: 6 }],
    ['rests of an hour are judged by their quiet minutes', hoursOf(24, 3600), undefined],
    [
      'people: no two rests alike',
      hoursOf(24, 600).map((s, i) => s * (0.3 + ((i * 37) % 11) / 5)),
      undefined,
    ],
  ])('%s', (_, restsS, wanted) => {
    const [scene, memo] = after(restsS);
    const even = regularStarts({ ...scene, trigger: 'day' }, memo);
    if (wanted === undefined) expect(even).toBeUndefined();
    else expect(even).toMatchObject(wanted);
  });

  it('has none once nothing started for hours, and forgets what is older than two days', () => {
    const [scene, memo] = after(hoursOf(100, 320));
    expect(regularStarts(scene, memo)).toMatchObject({ hours: 47 });
    expect(regularStarts({ ...scene, atMs: scene.atMs + 6 * HOUR_S * 1000 }, memo)).toBeUndefined();
  });

  it('begins again after a visit', () => {
    const [scene, memo] = after(hoursOf(24, 320));
    const resetAtMs = 14 * HOUR_S * 1000;
    expect(regularStarts({ ...scene, resetAtMs }, memo)).toMatchObject({
      hours: 9,
      sinceMs: resetAtMs,
    });
  });
});

/**
 * By hand, at sea level: 167 L charged at 38 psi (363.3 kPa absolute) hold 60,677 kPa L of air; at
 * 40 psi (377.1) it takes 160.9 L, at 60 psi (515.0) 117.8 L. 43.1 L in 320 s are 485 L an hour;
 * the pump that fills for 125 s of each 445 s delivers 3.6 times that.
 */
describe('lossOfStarts', () => {
  it.each<[string, Partial<Cycle>, ReturnType<typeof houseCard>, object | undefined]>([
    ['of a tank on the card', {}, houseCard(), { lPerH: 485, share: 0.281 }],
    [
      'no tank on the card: of the pressure and the pump',
      {},
      houseCard({ tank: { kind: 'captive-air' } }),
      { share: 0.281 },
    ],
    ['short fills are of a tank whose litres nobody knows', { ranS: 30 }, houseCard(), undefined],
  ])('%s', (_, change, card, wanted) => {
    const [scene, memo] = after(hoursOf(24, 320), change, card);
    const even = regularStarts(scene, memo)!;
    const loss = lossFromStarts(scene, even);
    const reported = loss && {
      ...(loss.lPerH !== undefined && { lPerH: Math.round(loss.lPerH) }),
      share: Math.round(loss.deliveryFraction! * 1000) / 1000,
    };
    expect(reported).toEqual(wanted);
  });

  it('says nothing without pressure', () => {
    const [scene, memo] = after(hoursOf(24, 320));
    for (const cycle of scene.pump.cycles) delete cycle.cutInKpa;
    expect(lossFromStarts(scene, regularStarts(scene, memo)!)).toBeUndefined();
  });
});

const leakRows: [string, string, string[], KitOptions?][] = [
  [
    'a fill each 7 min, day and night',
    'cycle 125s 8A 40-60psi every 7.4min x170',
    ['1206 min leak raised soon leak'],
  ],
  ['nor for a night', 'cycle 125s 8A 40-60psi every 7.4min x110', []],
  ['announced', 'cycle 125s 8A 40-60psi every 7.4min x300', [], { expected: 'pool' }],
  [
    'a field that is watered day and night is given a second one',
    'cycle 125s 8A 40-60psi every 7.4min x170',
    [],
    { card: houseCard({ uses: ['house', 'irrigation'] }) },
  ],
  [
    'and is told after it',
    'cycle 125s 8A 40-60psi every 7.4min x380',
    ['2649 min leak raised soon leak'],
    { card: houseCard({ uses: ['house', 'irrigation'] }) },
  ],
  ['taps that run against frost as well', 'rest 50psi -5C | cycle 125s 8A 40-60psi every 7.4min x170', []],
  [
    'a day whose quiet minutes were before it does not take it back',
    'cycle 125s 8A 40-60psi every 7.4min x195 | day 195 cycles 24000s leak 0',
    ['1206 min leak raised soon leak'],
  ],
  [
    'a still day after it does',
    'cycle 125s 8A 40-60psi every 7.4min x195 | day 195 cycles 24000s | day 12 cycles 1500s leak 0',
    ['1206 min leak raised soon leak', 'day 2 leak cleared'],
  ],
];

describe('leak and starts-over-limit', () => {
  it.each(leakRows)('%s', (_, text, reported, options) => {
    expect(
      kit({ kinds: ['leak'], ...options })
        .play(text)
        .said(),
    ).toEqual(reported);
  });

  const reported = (kind: AlarmKind, options: KitOptions = {}) =>
    kit(options)
      .play('cycle 125s 8A 40-60psi every 7.4min x200')
      .events.find((event) => event.alarm === kind);

  it('says how much, of a tank that is known and of one that is not', () => {
    expect(reported('leak')).toMatchObject({
      reason: 'lost-between-starts',
      figures: { lossLPerDay: expect.closeTo(24 * 486.2, -1), restS: 319, hours: 20 },
      why: expect.stringContaining(
        'The longest rest of each hour has lasted about 5 min, day and night, for 20 h.',
      ),
      evidence: { litresPerHour: 486.2, ceaselessH: 20, restS: 319 },
    });
    const noTank = reported('leak', { card: houseCard({ tank: { kind: 'captive-air' } }) });
    expect(noTank).toMatchObject({
      reason: 'lost-between-starts',
      why: expect.stringMatching(
        /^Pressure falls from cut-out to cut-in in each rest .*28 % of the pump's delivery\. The volume is unknown/,
      ),
      evidence: { lossShare: 0.2815, restS: 319 },
    });
    expect(JSON.stringify(noTank)).not.toMatch(/gal|litresPerHour|leakLPerDay/);
  });

  it('too many starts as even as a clock are no habit', () => {
    const over = reported('starts-over-limit');
    expect(over).toMatchObject({ evidence: { restS: 319, leakLPerDay: 11_668 } });
    expect(over?.causes?.map(({ cause }) => cause)).toEqual([
      'leak',
      'open-tap',
      'check-valve',
      'tank-air-lost',
    ]);
  });
});
