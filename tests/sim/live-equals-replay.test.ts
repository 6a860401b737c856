/**
 * What is reported depends on what was measured and done, not on when it arrived (contract, section
 * 4): the live server, `replay`, any other packing, order or doubling of the same readings, and any
 * point of stopping and going on give the same.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/open-store.ts';
import { delayedStore } from '../support/delayed-store.ts';
import { depth } from '../support/depth.ts';
import { runLive, replayScenario, NO_DISRUPTIONS, type Disruptions } from './support/run-both.ts';
import { alarmDifferences, differences } from './support/compare-runs.ts';
import { deliver, type ActName, type Plan, type Delivery } from './support/scenario.ts';

/** A failing run prints its seed; put it here, and its case below, for ever. */
const SEED = 4242;
const RUNS = depth(3, 8);

const ACTS: ActName[] = [
  'card',
  'other-card',
  'visit',
  'pinned',
  'acknowledged',
  'expected',
  'calibrated',
  'shelved',
];

/** Whole per cents: of real numbers the tool would try the edges alone. */
const percent = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min, max }).map((n) => n / 100);

/** So many readings a channel at most: hours at 1 s, two days at 10 s. */
const plans: fc.Arbitrary<Plan> = fc
  .record({
    seed: fc.nat(100_000),
    pace: fc.constantFrom([1, 4], [2, 7], [5, 18], [10, 48]),
    fraction: percent(40, 100),
    fault: fc.constantFrom('none', 'stuck', 'air-lost'),
    backlog: fc.option(fc.tuple(percent(0, 50), percent(10, 50))),
    acts: fc.array(fc.record({ fraction: percent(5, 95), act: fc.constantFrom(...ACTS) }), { maxLength: 4 }),
  })
  .map(({ seed, pace, fraction, fault, backlog, acts }) => {
    const hours = pace[1] * fraction;
    return {
      seed,
      hours,
      everyS: pace[0],
      fault: fault,
      ...(backlog && { backlog: { fromH: hours * backlog[0], untilH: hours * (backlog[0] + backlog[1]) } }),
      acts,
    };
  });

const travels: fc.Arbitrary<Delivery> = fc.record({
  seed: fc.nat(100_000),
  packS: fc.constantFrom(10, 20, 57, 300),
  doubled: fc.constantFrom(0, 0.05, 0.5),
  lateS: fc.constantFrom(0, 40, 5000),
  clock: fc.constantFrom('utc', 'none', 'steps'),
});

const troubles: fc.Arbitrary<Disruptions> = fc.record({
  stops: fc.array(fc.record({ fraction: percent(0, 99), how: fc.constantFrom('clean', 'killed') }), {
    maxLength: 5,
  }),
  tickEveryMs: fc.constantFrom(1000, 7000, 31_000),
});

/** Every difference between `replay` and the live server, over one journey. */
async function replayAndLive(plan: Plan, how: Delivery, trouble: Disruptions): Promise<string[]> {
  const journey = deliver(plan, how);
  const settled = await replayScenario(journey);
  const live = await runLive(journey, trouble);
  return [
    ...differences(settled, live.settled),
    ...alarmDifferences(live.rows, live.settled.alarms, settled.alarms),
  ];
}

describe('live and replay', () => {
  it('say the same, stopped and started anywhere', async () => {
    await fc.assert(
      fc.asyncProperty(plans, travels, troubles, async (plan, how, trouble) => {
        expect(await replayAndLive(plan, how, trouble)).toEqual([]);
      }),
      { seed: SEED, numRuns: RUNS, endOnFailure: true },
    );
  });

  it('say the same of readings that were packed, ordered and doubled in another way', async () => {
    const believed = travels.map((how): Delivery => ({ ...how, clock: 'utc' }));
    await fc.assert(
      fc.asyncProperty(plans, believed, believed, troubles, async (plan, how, otherwise, trouble) => {
        const settled = await replayScenario(deliver(plan, how));
        const again = await replayScenario(deliver(plan, otherwise));
        expect(again).toEqual(settled);
        const live = await runLive(deliver(plan, otherwise), trouble);
        expect([
          ...differences(settled, live.settled),
          ...alarmDifferences(live.rows, live.settled.alarms, settled.alarms),
        ]).toEqual([]);
      }),
      { seed: SEED, numRuns: RUNS, endOnFailure: true },
    );
  });

  it('say the same where the store takes its time', async () => {
    const plan: Plan = {
      seed: 5,
      hours: 3,
      everyS: 10,
      fault: 'stuck',
      backlog: { fromH: 1, untilH: 1.5 },
      acts: [
        { fraction: 0.2, act: 'card' },
        { fraction: 0.7, act: 'visit' },
      ],
    };
    const journey = deliver(plan, { seed: 2, packS: 57, doubled: 0.05, lateS: 40, clock: 'utc' });
    const stops = [
      { fraction: 0.4, how: 'killed' as const },
      { fraction: 0.8, how: 'clean' as const },
    ];
    const settled = await replayScenario(journey);
    const store = delayedStore(openStore(':memory:'), SEED);
    const live = await runLive(journey, { stops, tickEveryMs: 7000 }, store);
    expect([
      ...differences(settled, live.settled),
      ...alarmDifferences(live.rows, live.settled.alarms, settled.alarms),
    ]).toEqual([]);
    expect(settled.cycles).not.toEqual([]);
  });

  it('say the same over days', async () => {
    const plan: Plan = {
      seed: 3,
      hours: depth(84, 240),
      everyS: 30,
      fault: 'air-lost',
      backlog: { fromH: 60, untilH: 80 },
      acts: [],
    };
    expect(
      await replayAndLive(
        plan,
        { seed: 1, packS: 600, doubled: 0.1, lateS: 5000, clock: 'utc' },
        { stops: [{ fraction: 0.5, how: 'killed' }], tickEveryMs: 31_000 },
      ),
    ).toEqual([]);
  });

  it('say the same with a day of pressure that comes at its end', async () => {
    const plan: Plan = {
      seed: 3,
      hours: 34,
      everyS: 10,
      fault: 'stuck',
      backlog: { fromH: 5, untilH: 29 },
      acts: [],
    };
    expect(
      await replayAndLive(plan, { seed: 1, packS: 60, doubled: 0, lateS: 0, clock: 'utc' }, NO_DISRUPTIONS),
    ).toEqual([]);
  });

  /** Found by the properties above, and kept. */
  it.each<[string, Plan, Delivery, Disruptions]>([
    [
      'a clock that steps, killed: the amount by which it was overruled was not kept with the pack',
      {
        seed: 82688,
        hours: 3.15,
        everyS: 2,
        fault: 'stuck',
        backlog: { fromH: 0.3465, untilH: 1.764 },
        acts: [
          { fraction: 0.95, act: 'shelved' },
          { fraction: 0.17, act: 'other-card' },
        ],
      },
      { seed: 15, packS: 10, doubled: 0.5, lateS: 5000, clock: 'steps' },
      {
        stops: [
          { fraction: 0.39, how: 'killed' },
          { fraction: 0.63, how: 'killed' },
        ],
        tickEveryMs: 31_000,
      },
    ],
    [
      'an alarm that was withdrawn and turns out right after all: it had the same name and was lost',
      {
        seed: 25731,
        hours: 7.92,
        everyS: 5,
        fault: 'air-lost',
        backlog: { fromH: 0.396, untilH: 1.9008 },
        acts: [
          { fraction: 0.18, act: 'pinned' },
          { fraction: 0.83, act: 'acknowledged' },
        ],
      },
      { seed: 42987, packS: 10, doubled: 0.05, lateS: 5000, clock: 'utc' },
      { stops: [{ fraction: 0.97, how: 'killed' }], tickEveryMs: 7000 },
    ],
  ])('say the same of %s', async (_what, plan, how, trouble) => {
    expect(await replayAndLive(plan, how, trouble)).toEqual([]);
  });
});
