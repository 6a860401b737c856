/** The motor draws more, starts badly or not at all. */
import { AT_ONCE_MS, DAYS_3_MS, growing, hours, since, WEEK_MS, type Recipe } from './recipe.ts';

const FAST_NODE = { everyS: 1, packS: 10 } as const;

export const MOTOR_FAULTS: readonly Recipe[] = [
  {
    // Current follows load weakly, so 6 % more at the shaft is 4 % more amps or less: the lightest
    // size is at the edge of what an honest reader can say without volts.
    family: 'amps-high: drag in the pump',
    wish: { hp: [0.75, 1, 1.5, 2], node: { extraChannels: ['voltage'] } },
    sizes: [1.12, 1.2, 1.35],
    forDays: 20,
    story: (_, { ms }, drag) => ({
      what: `bearings and sand take ${Math.round((drag - 1) * 100)} % more power, over 10 days`,
      fault: growing(ms, 10, (part) => ({ dragRatio: 1 + part * (drag - 1) })),
      alarms: ['amps-high', 'no-start'],
      causes: ['failing-motor', 'sand', 'overload-tripping'],
      knowableMs: ms + 8 * hours(24),
      withinMs: WEEK_MS,
    }),
  },
  {
    family: 'amps-high: run capacitor',
    wish: { hp: [0.75, 1, 1.5, 2], node: { extraChannels: ['voltage'] } },
    sizes: [1.4, 1.9],
    forDays: 6,
    story: (_, { ms }, reactiveRatio) => ({
      what: `the run capacitor is weak: ${Math.round((reactiveRatio - 1) * 100)} % more reactive current`,
      fault: since(ms, { reactiveRatio }),
      alarms: ['amps-high', 'no-start'],
      causes: ['failing-capacitor', 'failing-motor'],
      knowableMs: ms + hours(12),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    // Locked-rotor current until the overload opens, after about ten seconds; then again.
    family: 'failed-start: rotor stuck',
    wish: { node: FAST_NODE },
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'sand holds the rotor',
      fault: since(ms, { rotorStuck: true }),
      alarms: ['failed-start'],
      causes: ['stuck-rotor', 'failing-capacitor', 'failing-motor'],
      showing: { is: 'run', sinceMs: ms, nth: 2, afterS: 5 },
      withinMs: AT_ONCE_MS,
    }),
  },
  {
    family: 'failed-start: start capacitor',
    wish: { node: FAST_NODE },
    sizes: [0.5, 0.9],
    forDays: 3,
    story: (_, { ms }, startFails) => ({
      what: `${startFails * 100} % of the starts fail`,
      fault: since(ms, { startFails }),
      alarms: ['failed-start'],
      causes: ['failing-capacitor', 'stuck-rotor', 'failing-motor'],
      showing: { is: 'run', sinceMs: ms, nth: 8, afterS: 15 },
      withinMs: hours(6),
    }),
  },
  {
    // Too much load for the plate: the overload opens within the run and lets it start when cool.
    family: 'no-start: overload trips',
    wish: { hp: [1, 1.5, 2] },
    sizes: [3.5],
    forDays: 3,
    story: (_, { ms }, dragRatio) => ({
      what: 'the pump binds and the overload opens within each run',
      fault: since(ms, { dragRatio }),
      alarms: ['no-start', 'amps-high', 'no-water', 'cut-out-not-reached', 'short-cycling'],
      causes: ['overload-tripping', 'failing-motor', 'sand', 'stuck-rotor'],
      showing: { is: 'run', sinceMs: ms, nth: 3, afterS: 20 },
      withinMs: hours(12),
    }),
  },
  {
    family: 'amps-low: clamp half open',
    wish: { node: { extraChannels: ['voltage'] } },
    sizes: [0.85, 0.6],
    forDays: 6,
    story: (_, { ms }, clampRatio) => ({
      what: `the clamp shows ${clampRatio * 100} % of the current`,
      fault: since(ms, { clampRatio }),
      alarms: ['amps-low', 'sensor-fault'],
      causes: ['clamp-off'],
      knowableMs: ms + hours(12),
      withinMs: DAYS_3_MS,
    }),
  },
];
