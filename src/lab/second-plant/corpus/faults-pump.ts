/** The pump delivers less, or nothing: several mechanisms for each. */
import { amountFor, deliveredLPerS } from './operating-point.ts';
import { AT_ONCE_MS, DAYS_3_MS, growing, hours, since, WEEK_MS, type Recipe } from './recipe.ts';

const BACK_LEAK_CAUSES = ['check-valve', 'drop-pipe-leak', 'pitless-leak'] as const;
const HOUSE_LEAK_CAUSES = ['leak', 'open-tap'] as const;
/** Of what is delivered: less is within the scatter of fills under draws (argued, not measured). */
const MIN_TELLABLE_LOSS = 0.1;

const ANY_HP = [0.5, 0.75, 1, 1.5, 2, 3];

export const PUMP_FAULTS: readonly Recipe[] = [
  {
    // Part of the water runs back through the rings. Drawn-out fills are seen within a day of runs
    // once a seventh is lost: a draw within a run makes single ones uncertain.
    family: 'slow-fill: worn wear rings',
    wish: { hp: ANY_HP },
    sizes: [0.25, 0.4, 0.6],
    forDays: 22,
    story: ({ plan }, { ms }, lost) => {
      const full = amountFor(plan, lost, (ringLeak) => ({ ringLeak }));
      return {
        what: `worn wear rings take ${lost * 100} % of what is delivered, over 14 days`,
        fault: growing(ms, 14, (part) => ({ ringLeak: part * full })),
        alarms: ['slow-fill', 'cut-out-not-reached', 'amps-low'],
        causes: ['worn-pump', 'sand'],
        knowableMs: ms + (14 * 24 * hours(1) * 0.15) / lost + hours(24),
        withinMs: WEEK_MS,
      };
    },
  },
  {
    // Water runs back into the well while the pump runs, and the tank empties through the hole
    // while it rests, as fast: both go with the root of lift and pressure together. So a run lacks
    // what the loss at rest takes, as with a leak in the house, and nothing but a closed house
    // valve parts the two.
    family: 'leak: hole in the drop pipe',
    wish: { hp: ANY_HP },
    sizes: [0.03, 0.15, 0.4],
    forDays: 6,
    story: ({ plan }, { ms }, lost) => {
      const dropPipeHole = amountFor(plan, lost, (hole) => ({ dropPipeHole: hole }));
      return {
        what: `a hole in the drop pipe takes ${lost * 100} % of what is delivered`,
        fault: since(ms, { dropPipeHole }),
        alarms: [
          'leak',
          'slow-fill',
          'short-cycling',
          'starts-over-limit',
          'cycle-count',
          'cut-out-not-reached',
        ],
        causes: [...BACK_LEAK_CAUSES, ...HOUSE_LEAK_CAUSES],
        knowableMs: ms + hours(12),
        withinMs: DAYS_3_MS,
      };
    },
  },
  {
    // A valve that leaks is shut by the pump's flow: a run brings what it ever did, where a leak in
    // the house takes from it as well. Fills tell their delivery to some hundredths, so a small
    // loss may be either.
    family: 'leak: check valve',
    wish: {},
    sizes: [0.004, 0.02, 0.08],
    forDays: 6,
    story: ({ plan }, { ms }, lPerS) => {
      const headM = plan.aquifer.staticLevelM + 35;
      return {
        what: `the check valve lets ${Math.round(lPerS * 3600)} L/h back into the well`,
        fault: since(ms, { checkValveLeak: lPerS / Math.sqrt(headM) }),
        alarms: ['leak', 'cycle-count', 'short-cycling', 'starts-over-limit'],
        causes: [
          ...BACK_LEAK_CAUSES,
          ...(lPerS < MIN_TELLABLE_LOSS * deliveredLPerS(plan) ? HOUSE_LEAK_CAUSES : []),
        ],
        knowableMs: ms + hours(18),
        withinMs: DAYS_3_MS,
      };
    },
  },
  {
    family: 'slow-fill: valve part shut',
    wish: { hp: ANY_HP },
    sizes: [0.25, 0.5],
    forDays: 10,
    story: ({ plan }, { ms }, lost) => {
      const valveLoss = amountFor(plan, lost, (loss) => ({ valveLoss: loss }));
      return {
        what: `a valve before the tank is shut so far that ${lost * 100} % is lost`,
        fault: since(ms, { valveLoss }),
        alarms: ['slow-fill', 'amps-low', 'amps-high', 'cut-out-not-reached'],
        causes: ['closed-valve'],
        knowableMs: ms + hours(24),
        withinMs: WEEK_MS,
      };
    },
  },
  {
    // The level falls further for the same flow. Where little is drawn the casing carries a whole
    // fill and nothing shows; a heat pump draws long enough to find the bottom.
    family: 'dry-run: plugged screen',
    wish: { lowYield: true, use: 'heat-pump', tankRatio: 3, hp: [0.5, 0.75] },
    sizes: [0.09, 0.05],
    forDays: 14,
    month: 1,
    story: (_, { ms }, open) => ({
      what: `the screen plugs until ${open * 100} % of it is open, over 10 days`,
      fault: growing(ms, 10, (part) => ({ screenOpen: 1 - part * (1 - open) })),
      alarms: ['dry-run', 'level-low', 'slow-fill', 'no-water', 'amps-low', 'cut-out-not-reached'],
      causes: ['plugged-screen', 'low-well'],
      showing: { is: 'level-under', sinceMs: ms, m: 0.35, forS: 120 },
      withinMs: DAYS_3_MS,
    }),
  },
  {
    // The motor turns alone: next to no load and no water, from the first run.
    family: 'dry-run: broken shaft',
    wish: { hp: ANY_HP },
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'the shaft between motor and pump is broken',
      fault: since(ms, { shaftBroken: true }),
      alarms: ['dry-run', 'no-water'],
      causes: ['broken-shaft'],
      showing: { is: 'run', sinceMs: ms, nth: 1, afterS: 20 },
      withinMs: AT_ONCE_MS,
    }),
  },
  {
    family: 'dry-run: air-locked pump',
    wish: { aboveGround: true, hp: [0.5, 0.75, 1] },
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'the jet pump has lost its prime',
      fault: since(ms, { airLocked: true }),
      alarms: ['dry-run', 'no-water'],
      causes: ['lost-prime', 'air-lock', 'low-well'],
      showing: { is: 'run', sinceMs: ms, nth: 1, afterS: 20 },
      withinMs: AT_ONCE_MS,
    }),
  },
  {
    // The static level falls under the intake: the pump takes what flows in, and air.
    family: 'dry-run: well runs out',
    wish: {},
    sizes: [1],
    forDays: 3,
    story: ({ plan: { aquifer } }, { ms }) => ({
      what: 'the water table falls under the intake within 36 hours',
      fault: growing(ms, 1.5, (grown) => ({
        levelFallM: grown * (aquifer.intakeM - aquifer.staticLevelM + 1),
      })),
      alarms: ['dry-run', 'level-low', 'no-water', 'slow-fill', 'amps-low', 'cut-out-not-reached'],
      causes: ['low-well'],
      showing: { is: 'level-under', sinceMs: ms, m: 0.35, forS: 60 },
      withinMs: hours(24),
    }),
  },
  {
    // The pump turns against a shut valve: no water, and of pumps of low specific speed, low amps.
    family: 'dry-run: valve shut',
    wish: { hp: ANY_HP },
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'the valve between well and tank is shut',
      fault: since(ms, { valveLoss: 1e9 }),
      alarms: ['dry-run', 'no-water', 'cut-out-not-reached', 'long-run'],
      causes: ['closed-valve'],
      showing: { is: 'run', sinceMs: ms, nth: 1, afterS: 60 },
      withinMs: AT_ONCE_MS,
    }),
  },
];
