/** The switch, its nipple, and the sensors and boxes that watch. */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import { cutOutKpa } from './operating-point.ts';
import { AT_ONCE_MS, DAYS_3_MS, hours, minutes, since, type Recipe } from './recipe.ts';

const FOREVER_MS = 4e12;

export const CONTROL_FAULTS: readonly Recipe[] = [
  {
    // 5 psi over cut-out, with the pump running, is more than any switch scatters.
    family: 'over-pressure: contacts stuck',
    wish: { hp: [1, 1.5] },
    sizes: [1],
    forDays: 1,
    story: ({ plan }, { ms }) => ({
      what: 'the contacts of the switch are welded',
      fault: since(ms, { contacts: 'stuck-closed' }),
      alarms: ['over-pressure', 'long-run'],
      causes: ['switch-contacts-stuck', 'blocked-nipple', 'frozen'],
      showing: { is: 'over-kpa', sinceMs: ms, kpa: cutOutKpa(plan) + kpaFromPsi(6), forS: 10 },
      withinMs: AT_ONCE_MS,
    }),
  },
  {
    // The switch senses the tee minutes late, so it cuts out and in too late.
    family: 'over-pressure: blocked nipple',
    wish: { hp: [1, 1.5] },
    sizes: [240, 1200],
    forDays: 2,
    story: ({ plan }, { ms }, switchLagS) => ({
      what: `the nipple of the switch is plugged: it senses ${switchLagS} s late`,
      fault: since(ms, { switchLagS }),
      alarms: ['over-pressure', 'long-run', 'switch-shift', 'no-start', 'no-water'],
      causes: ['blocked-nipple', 'switch-contacts-stuck', 'frozen', 'switch-out-of-set'],
      showing: { is: 'over-kpa', sinceMs: ms, kpa: cutOutKpa(plan) + kpaFromPsi(6), forS: 10 },
      withinMs: hours(12),
    }),
  },
  {
    family: 'short-cycling: contacts chatter',
    wish: { node: { everyS: 1, packS: 10 } },
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'the contacts chatter, on and off each second, at each change',
      fault: since(ms, { contacts: 'chatter' }),
      alarms: ['short-cycling', 'starts-over-limit'],
      causes: ['switch-chatter'],
      showing: { is: 'run', sinceMs: ms, nth: 12, afterS: 1 },
      withinMs: hours(3),
    }),
  },
  {
    // Both points move together: spring, or somebody's wrench.
    family: 'switch-shift: spring',
    wish: {},
    sizes: [-5, 7],
    forDays: 5,
    story: (_, { ms }, psi) => ({
      what: `both points of the switch have moved by ${psi} psi`,
      fault: since(ms, { switchShiftKpa: kpaFromPsi(psi) }),
      alarms: ['switch-shift', 'tank-overcharged', 'over-pressure', 'cut-out-not-reached', 'slow-fill'],
      causes: ['switch-out-of-set', 'transducer-fault'],
      knowableMs: ms + hours(18),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    family: 'sensor-fault: transducer stuck',
    wish: {},
    sizes: [1],
    forDays: 3,
    story: (_, { ms }) => ({
      what: 'the transducer shows one value for good',
      fault: since(ms, { transducer: 'stuck' }),
      alarms: ['sensor-fault'],
      causes: ['transducer-fault', 'frozen'],
      knowableMs: ms + hours(12),
      withinMs: hours(24),
    }),
  },
  {
    family: 'sensor-fault: loop open',
    wish: {},
    sizes: [1],
    forDays: 2,
    story: (_, { ms }) => ({
      what: 'the wire of the transducer is off: its loop is under its span',
      fault: since(ms, { transducer: 'low' }),
      alarms: ['sensor-fault'],
      causes: ['transducer-fault'],
      knowableMs: ms + minutes(10),
      withinMs: hours(3),
    }),
  },
  {
    family: 'switch-shift: transducer offset',
    wish: {},
    sizes: [-6, 9],
    forDays: 5,
    story: (_, { ms }, psi) => ({
      what: `the transducer shows ${psi} psi too much`,
      fault: since(ms, { transducerOffsetKpa: kpaFromPsi(psi) }),
      alarms: ['switch-shift', 'sensor-fault', 'over-pressure'],
      causes: ['transducer-fault', 'switch-out-of-set'],
      knowableMs: ms + hours(18),
      withinMs: DAYS_3_MS,
    }),
  },
  {
    // The pressure rises as ever, with no current: of the clamp, and not of the pump.
    family: 'sensor-fault: clamp off',
    wish: {},
    sizes: [1],
    forDays: 3,
    story: (_, { ms }) => ({
      what: 'the clamp has come off',
      fault: since(ms, { clampRatio: 0 }),
      alarms: ['sensor-fault'],
      causes: ['clamp-off'],
      knowableMs: ms + hours(12),
      withinMs: hours(24),
    }),
  },
  {
    family: 'node-silent: node dead',
    wish: { node: { fedFrom: 'battery' } },
    sizes: [1],
    forDays: 1,
    story: (_, { ms }) => ({
      what: 'the node says nothing any more',
      node: { powerCuts: [{ fromMs: ms, untilMs: FOREVER_MS, lastGasp: false }] },
      alarms: ['node-silent'],
      causes: ['node-offline', 'power-lost', 'breaker-open'],
      knowableMs: ms + minutes(15),
      withinMs: hours(3),
    }),
  },
  {
    family: 'node-conflict: two boxes',
    wish: {},
    sizes: [1],
    forDays: 1,
    story: (_, { ms }) => ({
      what: 'two boxes use one name',
      node: { twinFromMs: ms },
      alarms: ['node-conflict'],
      causes: ['serviced', 'node-offline'],
      knowableMs: ms + minutes(3),
      withinMs: hours(1),
    }),
  },
];
