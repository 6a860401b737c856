/** Volts, lines and breakers. */
import { cutInKpa } from './operating-point.ts';
import { AT_ONCE_MS, DAYS_3_MS, hours, minutes, since, type Recipe } from './recipe.ts';

const WITH_VOLTS = { everyS: 5, packS: 30, extraChannels: ['voltage'], fedFrom: 'battery' } as const;
const FOREVER_MS = 4e12;

export const SUPPLY_FAULTS: readonly Recipe[] = [
  {
    family: 'no-start: breaker open',
    wish: {},
    sizes: [1],
    forDays: 1,
    story: ({ plan }, { ms }) => ({
      what: 'the breaker of the pump has opened',
      fault: since(ms, { breakerClosed: false }),
      alarms: ['no-start', 'no-water', 'power-lost'],
      causes: ['breaker-open', 'power-lost'],
      showing: { is: 'under-kpa', sinceMs: ms, kpa: cutInKpa(plan) - 12, forS: 90 },
      withinMs: minutes(10),
    }),
  },
  {
    // A broken wire, or contacts that do not close: the pressure asks and nothing flows.
    family: 'no-start: contacts open',
    wish: {},
    sizes: [1],
    forDays: 1,
    story: ({ plan }, { ms }) => ({
      what: 'the contacts of the switch do not close',
      fault: since(ms, { contacts: 'stuck-open' }),
      alarms: ['no-start', 'no-water'],
      causes: ['switch-contacts-open', 'broken-wire'],
      showing: { is: 'under-kpa', sinceMs: ms, kpa: cutInKpa(plan) - 12, forS: 90 },
      withinMs: minutes(10),
    }),
  },
  {
    // Pressure fell under the cut-off of the switch while the power was away: it waits for a hand.
    family: 'no-start: low-pressure cut-off',
    wish: { lowCutOff: true },
    sizes: [8],
    forDays: 2,
    story: ({ plan }, { ms }, outageH) => ({
      what: `after ${outageH} h without power the low-pressure cut-off holds the switch open`,
      fault: (tMs) => (tMs >= ms && tMs < ms + hours(outageH) ? { supplyOn: false } : {}),
      alarms: ['no-start', 'no-water', 'power-lost'],
      causes: ['low-pressure-cut-off', 'power-lost', 'breaker-open'],
      showing: { is: 'under-kpa', sinceMs: ms, kpa: cutInKpa(plan) - 12, forS: 90 },
      withinMs: minutes(10),
    }),
  },
  {
    family: 'power-lost: volts gone',
    wish: { node: WITH_VOLTS },
    sizes: [1],
    forDays: 1,
    story: (_, { ms }) => ({
      what: 'the line is dead',
      fault: since(ms, { supplyOn: false }),
      alarms: ['power-lost'],
      causes: ['power-lost', 'breaker-open'],
      knowableMs: ms + minutes(1),
      withinMs: AT_ONCE_MS,
      allowed: ['no-start', 'no-water'],
    }),
  },
  {
    family: 'power-lost: last gasp',
    wish: { node: { fedFrom: 'pump-circuit' } },
    sizes: [1],
    forDays: 1,
    story: (_, { ms }) => ({
      what: 'the node says that its own supply has failed',
      fault: since(ms, { supplyOn: false }),
      node: { powerCuts: [{ fromMs: ms, untilMs: FOREVER_MS, lastGasp: true }] },
      alarms: ['power-lost'],
      causes: ['power-lost', 'breaker-open'],
      knowableMs: ms + minutes(1),
      withinMs: AT_ONCE_MS,
      allowed: ['node-silent'],
    }),
  },
  {
    family: 'leg-lost: one of three lines',
    wish: { phase: 3, hp: [2, 3, 5], use: 'farm', tankRatio: 2, node: { everyS: 1, packS: 10 } },
    sizes: [1],
    forDays: 1,
    story: (_, { ms }) => ({
      what: 'one of three lines is dead',
      fault: since(ms, { legLost: true }),
      alarms: ['leg-lost', 'failed-start'],
      causes: ['lost-leg'],
      showing: { is: 'run', sinceMs: ms, nth: 1, afterS: 3 },
      withinMs: AT_ONCE_MS,
    }),
  },
  {
    // Volts that differ by 1, 2 and 4 % make currents differ by 7, 14 and 28 %.
    family: 'leg-imbalance: unlike volts',
    wish: { phase: 3, hp: [2, 3, 5], use: 'farm', tankRatio: 2 },
    sizes: [0.02, 0.04],
    forDays: 5,
    story: (_, { ms }, off) => ({
      what: `one line has ${off * 100} % fewer volts than the mean`,
      fault: since(ms, { lineRatios: [1 + off / 2, 1 + off / 2, 1 - off] }),
      alarms: ['leg-imbalance', 'amps-high'],
      causes: ['supply-voltage', 'lost-leg', 'failing-motor'],
      knowableMs: ms + hours(12),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    family: 'supply-voltage: low or high',
    wish: { node: WITH_VOLTS, plan: { supply: { ratio: 1, eveningDip: 0.01, wander: 0.003 } } },
    sizes: [1.13, 0.86, 0.78],
    forDays: 4,
    story: (_, { ms }, voltRatio) => ({
      what: `the supply is at ${Math.round(voltRatio * 100)} % of the plate`,
      fault: since(ms, { voltRatio }),
      alarms: ['supply-voltage', 'amps-high', 'amps-low', 'slow-fill'],
      causes: ['supply-voltage', 'generator'],
      knowableMs: ms + minutes(15),
      withinMs: hours(12),
    }),
  },
  {
    // Without a voltage channel, low volts show as more amps for less water.
    family: 'amps-high: low volts unmeasured',
    wish: { node: { extraChannels: [] }, plan: { supply: { ratio: 1, eveningDip: 0.01, wander: 0.003 } } },
    sizes: [0.84],
    forDays: 6,
    story: (_, { ms }, voltRatio) => ({
      what: `the supply is at ${Math.round(voltRatio * 100)} % of the plate, and nobody measures it`,
      fault: since(ms, { voltRatio }),
      alarms: ['amps-high', 'amps-low', 'slow-fill'],
      causes: ['supply-voltage', 'failing-motor'],
      knowableMs: ms + hours(24),
      withinMs: DAYS_3_MS,
    }),
  },
];
