/** Tank, pipes, well and use. */
import { cutInKpa, deliveredLPerS } from './operating-point.ts';
import { DAYS_3_MS, growing, hours, minutes, since, WEEK_MS, type Recipe } from './recipe.ts';

const KNOWN_TANK = { knowledge: ['all'] } as const;

export const WATER_FAULTS: readonly Recipe[] = [
  {
    // Boyle: the water between the switch points goes with the air. A third less shows in fills
    // and rests that are both shorter.
    family: 'tank-air-lost: slowly',
    wish: KNOWN_TANK,
    sizes: [0.6, 0.4, 0.2],
    forDays: 16,
    story: (_, { ms }, left) => ({
      what: `the tank loses air over 8 days until ${left * 100} % is left`,
      fault: growing(ms, 8, (part) => ({ airRatio: 1 - part * (1 - left) })),
      alarms: ['tank-air-lost', 'short-cycling', 'starts-over-limit'],
      causes: ['tank-air-lost', 'bladder-burst'],
      knowableMs: ms + 8 * hours(24) * Math.min(1, 0.4 / (1 - left)),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    family: 'tank-air-lost: burst bladder',
    wish: { ...KNOWN_TANK, plainTank: false },
    sizes: [0.12],
    forDays: 3,
    story: (_, { ms }, left) => ({
      what: 'the bladder has burst, and the air goes within hours',
      fault: growing(ms, 0.25, (part) => ({ airRatio: 1 - part * (1 - left) })),
      alarms: ['tank-air-lost', 'short-cycling', 'starts-over-limit'],
      causes: ['bladder-burst', 'tank-air-lost'],
      knowableMs: ms + hours(12),
      withinMs: hours(24),
    }),
  },
  {
    // More air than the cut-in allows: the tank is empty before the switch closes.
    family: 'tank-overcharged: pumped up',
    wish: KNOWN_TANK,
    sizes: [40, 90],
    forDays: 4,
    story: ({ plan }, { ms }, overKpa) => {
      const wantedKpa = cutInKpa(plan) + overKpa + 101;
      return {
        what: `somebody has charged the tank to ${overKpa} kPa over cut-in`,
        fault: since(ms, { airRatio: wantedKpa / (plan.tank!.prechargeKpa + 101) }),
        alarms: ['tank-overcharged', 'no-water', 'switch-shift', 'short-cycling'],
        causes: ['tank-overcharged'],
        knowableMs: ms + hours(24),
        withinMs: DAYS_3_MS,
      };
    },
  },
  {
    // The pressure falls at an even pace in the first quiet night.
    family: 'leak: behind the tank',
    wish: {},
    sizes: [0.004, 0.015, 0.06],
    forDays: 6,
    story: (_, { ms }, leakLPerS) => ({
      what: `a joint behind the tank leaks ${Math.round(leakLPerS * 3600)} L/h`,
      fault: since(ms, { leakLPerS }),
      alarms: ['leak', 'cycle-count', 'starts-over-limit', 'short-cycling'],
      causes: ['leak', 'open-tap', 'broken-pipe'],
      knowableMs: ms + hours(30),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    family: 'leak: tap left open',
    wish: { tankRatio: 1.5 },
    sizes: [0.35],
    forDays: 4,
    story: ({ plan }, { ms }, part) => ({
      what: `a tap takes ${part * 100} % of what the pump delivers, day and night`,
      fault: since(ms, { leakLPerS: part * deliveredLPerS(plan) }),
      alarms: ['leak', 'cycle-count', 'starts-over-limit', 'short-cycling', 'long-run'],
      causes: ['open-tap', 'leak', 'broken-pipe'],
      knowableMs: ms + hours(18),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    // The pump holds some pressure between its points, or none: it never stops.
    family: 'long-run: broken pipe',
    wish: {},
    sizes: [1.05, 2],
    forDays: 1,
    story: ({ plan }, { ms }, times) => ({
      what: `a pipe has broken and takes ${times} times what the pump delivers`,
      fault: since(ms, { leakLPerS: times * deliveredLPerS(plan) }),
      alarms: ['long-run', 'no-water', 'leak'],
      causes: ['broken-pipe', 'open-tap', 'leak'],
      knowableMs: ms + hours(1),
      withinMs: hours(3),
    }),
  },
  {
    family: 'no-water: pipe torn off',
    wish: { lowYield: true },
    sizes: [6],
    forDays: 1,
    story: ({ plan }, { ms }, times) => ({
      what: 'the pipe behind the tank is torn off',
      fault: since(ms, { leakLPerS: times * deliveredLPerS(plan) }),
      alarms: ['no-water', 'long-run', 'dry-run', 'leak'],
      causes: ['broken-pipe', 'open-tap', 'leak', 'low-well'],
      showing: { is: 'under-kpa', sinceMs: ms, kpa: 35, forS: 60 },
      withinMs: minutes(2),
    }),
  },
  {
    // Habits differ by tens of per cent from day to day: three days say it.
    family: 'cycle-count: other habits',
    wish: { use: 'retired', tankRatio: 1.5 },
    sizes: [2.2, 3.5],
    forDays: 10,
    story: (_, { ms }, useRatio) => ({
      what: `use has risen to ${useRatio} times what it was`,
      fault: since(ms, { useRatio }),
      alarms: ['cycle-count', 'starts-over-limit'],
      causes: ['habit-changed'],
      knowableMs: ms + hours(72),
      withinMs: WEEK_MS,
    }),
  },
  {
    family: 'level-low: water table falls',
    wish: { node: { extraChannels: ['level'] }, card: { levelLow: '5 m' } },
    sizes: [0.5, 0.85],
    forDays: 12,
    story: ({ plan: { aquifer } }, { ms }, part) => {
      const overM = aquifer.intakeM - aquifer.staticLevelM;
      const fallM = part * overM + (1 - part) * Math.max(0, overM - 4);
      return {
        what: `the water table falls by ${fallM.toFixed(1)} m over 8 days, to under the card's 5 m`,
        fault: growing(ms, 8, (grown) => ({ levelFallM: grown * fallM })),
        alarms: ['level-low', 'dry-run', 'slow-fill'],
        causes: ['low-well'],
        knowableMs: ms + 8 * hours(24) * Math.min(1, Math.max(0, overM - 5) / fallM),
        withinMs: DAYS_3_MS,
      };
    },
  },
  {
    family: 'store-low: pump stays off',
    wish: { control: 'float', use: 'stock', hp: [0.5, 0.75, 1] },
    sizes: [1],
    forDays: 6,
    story: (_, { ms }) => ({
      what: 'the breaker of the pump that fills the trough is open',
      fault: since(ms, { breakerClosed: false }),
      alarms: ['store-low', 'no-run', 'no-start'],
      causes: ['breaker-open', 'power-lost', 'switch-contacts-stuck', 'overload-tripping'],
      showing: { is: 'store-under', sinceMs: ms, m: 0.9, forS: 300 },
      withinMs: hours(2),
    }),
  },
  {
    family: 'store-low: store leaks',
    wish: { control: 'float', use: 'stock', hp: [0.5, 0.75, 1] },
    sizes: [1.3],
    forDays: 4,
    story: ({ plan }, { ms }, times) => ({
      what: 'the store loses more than the pump brings',
      fault: since(ms, { storeLeakLPerS: times * deliveredLPerS(plan) }),
      alarms: ['store-low', 'long-run'],
      causes: ['leak', 'broken-pipe', 'open-tap'],
      showing: { is: 'store-under', sinceMs: ms, m: 0.9, forS: 300 },
      withinMs: hours(2),
    }),
  },
  {
    family: 'no-run: clock stays off',
    wish: { control: 'timer', use: 'stock', node: { withoutPressure: true, extraChannels: [] } },
    sizes: [1],
    forDays: 4,
    story: (_, { ms }) => ({
      what: 'the clock does not close its contacts any more',
      fault: since(ms, { contacts: 'stuck-open' }),
      alarms: ['no-run'],
      // Without a gauge nothing parts the clock's contacts from an open breaker or a broken wire.
      causes: ['switch-contacts-open', 'breaker-open', 'power-lost', 'broken-wire'],
      knowableMs: ms + hours(26),
      withinMs: hours(24),
    }),
  },
  {
    family: 'freeze-risk: heater out',
    wish: {
      node: { extraChannels: ['temperature'] },
      plan: { climate: { meanC: 2, seasonC: 9, dayC: 5, heatedToC: 7 } },
    },
    sizes: [4, 14],
    forDays: 4,
    month: 1,
    story: (_, { ms }, coldC) => ({
      what: `the heater is out in a frost of ${coldC} C under the mean of January`,
      fault: since(ms, { heaterOn: false, coldC }),
      alarms: ['freeze-risk'],
      causes: ['frozen'],
      showing: { is: 'house-under', sinceMs: ms, c: 1.7, forS: 600 },
      withinMs: minutes(2),
    }),
  },
];
