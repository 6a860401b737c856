/**
 * Every kind of alarm, a row each (./kind-row.ts says what the columns mean). Here the keys are
 * defined, as the contract names them (firmware-contract/contract.md, section 6): an alarm that is
 * not here does not exist. The order is that in which the watches are asked; what explains what is
 * a column of its own.
 */
import { DAY_S, HOUR_S } from '../units/duration.ts';
import type { Applicability, Controls, KindRow } from './kind-row.ts';

/**
 * A pressure switch lets a pump run at full speed between two points; a drive holds one pressure
 * and lets speed and current follow what is drawn; a constant-pressure valve holds it by throttling
 * a pump that runs at full speed, and fills the tank slowly at the end; a float fills a store, a
 * timer does so by the clock, and pressure means nothing of either.
 */
function controls(
  pressureSwitch: Applicability,
  variableSpeed: Applicability,
  constantPressureValve: Applicability,
  float: Applicability,
  timer: Applicability,
): Controls {
  return {
    'pressure-switch': pressureSwitch,
    'variable-speed': variableSpeed,
    'constant-pressure-valve': constantPressureValve,
    float,
    timer,
  };
}

/** Watched by what no control changes: supply, node, weather, levels. */
const ALL_CONTROLS = controls('as-is', 'as-is', 'as-is', 'as-is', 'as-is');

/**
 * Nothing is pumped, or next to nothing: taps run dry, stores fall, runs do not come, and habits
 * change.
 */
const NOTHING_PUMPED = ['power-lost', 'failed-start', 'leg-lost', 'dry-run', 'no-start', 'long-run'] as const;
const NO_DELIVERY = [...NOTHING_PUMPED, 'no-water'] as const;
/** The tank or the plumbing makes the pump start too often. */
const MANY_STARTS = [
  'tank-air-lost',
  'tank-overcharged',
  'leak',
  'short-cycling',
  'starts-over-limit',
] as const;
/** The pump delivers less than it did. */
const WEAK_DELIVERY = ['slow-fill', 'amps-low', 'cut-out-not-reached', 'level-low'] as const;
/**
 * What is shown may be another well's, or a sensor's own trouble: nothing finer can be read from
 * it.
 */
const UNTRUSTED_SENSORS = ['sensor-fault', 'node-conflict'] as const;

const ROWS = {
  'power-lost': {
    group: 'electric',
    priority: 'now',
    controls: ALL_CONTROLS,
    explainedBy: [],
    neverGrouped: true,
    // Power that comes and goes is one alarm; while it is back it explains nothing
    // (src/core/alarms/lifecycle/symptoms.ts).
    delays: { onS: 30, offS: HOUR_S },
  },
  'node-conflict': {
    group: 'sensing',
    priority: 'soon',
    controls: ALL_CONTROLS,
    explainedBy: [],
    neverGrouped: true,
    delays: { onS: 0, offS: HOUR_S },
  },
  // A silent node says nothing of the pump, and makes the day unheard by itself.
  'node-silent': {
    group: 'sensing',
    priority: 'soon',
    controls: ALL_CONTROLS,
    explainedBy: ['power-lost', 'site-silent'],
    neverGrouped: true,
    daysTeach: true,
    delays: { onS: 0, offS: 0 },
  },
  'sensor-fault': {
    group: 'sensing',
    priority: 'soon',
    controls: controls('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
    explainedBy: ['power-lost', 'node-silent', 'site-silent', 'node-conflict', 'freeze-risk'],
    // What is told of the pump besides says nothing of a clamp that fell off meanwhile.
    neverGrouped: true,
    delays: { onS: 0, offS: HOUR_S },
  },
  'leg-lost': {
    group: 'electric',
    priority: 'now',
    minutesMatter: true,
    // The rectifier of a drive at light load draws unevenly from its lines: only under load does a
    // line with nothing mean that it is lost.
    controls: controls('as-is', 'adapted', 'as-is', 'as-is', 'as-is'),
    explainedBy: ['power-lost'],
    delays: { onS: 10, offS: HOUR_S },
  },
  'failed-start': {
    group: 'pump',
    priority: 'now',
    minutesMatter: true,
    // A drive starts softly, and its running current spans a factor of four: only the motor's
    // maximum can be held against it.
    controls: controls('as-is', 'adapted', 'as-is', 'as-is', 'as-is'),
    needsSteadySupply: true,
    // Not by no-start, whose first step knows of a reset: a motor that is held must not be tried
    // again.
    explainedBy: ['leg-lost', 'power-lost'],
    // Good starts for so long: a motor that starts badly does so again and again, with good starts
    // between.
    delays: { onS: 0, offS: 6 * HOUR_S },
  },
  'over-pressure': {
    group: 'water',
    priority: 'now',
    minutesMatter: true,
    // Held pressure is the measure of a drive. Into a store pressure is what hose and height make
    // it: the relief valve alone counts.
    controls: controls('as-is', 'adapted', 'as-is', 'adapted', 'adapted'),
    explainedBy: ['long-run', ...UNTRUSTED_SENSORS],
    // A running pump that drives pressure over its limit: whoever was told of a long run only, may
    // walk up to the tank.
    reportedWhileNow: true,
    // A day and two hours without it: what comes back each day (contacts that stick now and then, a
    // heater each morning) is one alarm.
    delays: { onS: 10, offS: 26 * HOUR_S },
  },
  'dry-run': {
    group: 'pump',
    priority: 'now',
    minutesMatter: true,
    // A drive without water goes to full speed: its current is low only against its own highest. A
    // store has low current alone.
    controls: controls('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
    explainedBy: ['leg-lost', 'no-water', 'long-run'],
    // A day and two hours: a garden that outruns the well each evening is one alarm.
    delays: { onS: 0, offS: 26 * HOUR_S },
  },
  'no-start': {
    group: 'pump',
    priority: 'now',
    // A store's pressure does not call; its contact does.
    controls: controls('as-is', 'as-is', 'as-is', 'adapted', 'adapted'),
    needsSteadySupply: true,
    explainedBy: ['power-lost', 'failed-start', 'leg-lost', 'dry-run'],
    // What starts late each time is one alarm and not one a start.
    delays: { onS: 60, offS: HOUR_S },
  },
  // Water runs somewhere, for hours already: today will do, unless the switch should have opened
  // (shared/text/en/alarms/forms.ts).
  'long-run': {
    group: 'pump',
    priority: 'now',
    // A drive and a valve run for as long as water is drawn: a garden is a run of a night. Held far
    // under their pressure is the sign there. A store is judged by its own longest fill alone.
    controls: controls('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
    explainedBy: ['over-pressure', 'dry-run', 'cut-out-not-reached', 'no-water', 'leg-lost', 'store-low'],
    // Contacts that stick now and then make one such run after another: that is one alarm.
    delays: { onS: 0, offS: 2 * HOUR_S },
  },
  'no-water': {
    group: 'water',
    priority: 'now',
    controls: controls('as-is', 'as-is', 'as-is', 'none', 'none'),
    explainedBy: NOTHING_PUMPED,
    delays: { onS: 60, offS: HOUR_S },
  },
  'no-run': {
    group: 'pump',
    priority: 'soon',
    // Where pressure is measured a pump that is wanted and does not come is `no-start`; but of two
    // that take turns one may drop out.
    controls: controls('adapted', 'adapted', 'adapted', 'as-is', 'as-is'),
    explainedBy: [...NO_DELIVERY, ...UNTRUSTED_SENSORS, 'node-silent', 'site-silent', 'store-low'],
    currentOnly: true,
    delays: { onS: 0, offS: 0 },
  },
  'store-low': {
    group: 'water',
    priority: 'now',
    controls: ALL_CONTROLS,
    explainedBy: ['power-lost', 'failed-start', 'leg-lost', 'dry-run', 'no-start', 'no-run', 'long-run'],
    delays: { onS: 60, offS: HOUR_S },
  },
  'supply-voltage': {
    group: 'electric',
    priority: 'soon',
    controls: ALL_CONTROLS,
    needsSteadySupply: true,
    explainedBy: ['power-lost', 'leg-lost', 'node-conflict'],
    neverGrouped: true,
    // A day and two hours without it: a supply that sags each evening is one alarm.
    delays: { onS: 300, offS: 26 * HOUR_S },
  },
  'level-low': {
    group: 'water',
    priority: 'soon',
    // It is `now` where the level reaches the pump within the hour.
    minutesMatter: true,
    controls: ALL_CONTROLS,
    // The level is the reason, and no symptom; but where the dry pump was told, it is no second
    // news.
    explainedBy: ['dry-run', 'node-conflict'],
    neverGrouped: true,
    daysTeach: true,
    delays: { onS: 120, offS: HOUR_S },
  },
  'freeze-risk': {
    group: 'water',
    priority: 'soon',
    controls: ALL_CONTROLS,
    explainedBy: [],
    neverGrouped: true,
    daysTeach: true,
    delays: { onS: 600, offS: DAY_S },
  },
  'tank-overcharged': {
    group: 'water',
    priority: 'soon',
    controls: controls('as-is', 'none', 'none', 'none', 'none'),
    explainedBy: [...UNTRUSTED_SENSORS, 'tank-air-lost', 'short-cycling'],
    delays: { onS: 0, offS: DAY_S },
  },
  'tank-air-lost': {
    group: 'water',
    priority: 'soon',
    // A drive's tank only spaces its sleep. Behind a valve the bypass fills the tank: the time of
    // its shortest fills tells, rates do not, and with a few gallons pressure falls as fast over
    // the air charge as under it.
    controls: controls('as-is', 'none', 'adapted', 'none', 'none'),
    explainedBy: [...UNTRUSTED_SENSORS, 'tank-overcharged', 'short-cycling'],
    delays: { onS: 0, offS: DAY_S },
  },
  leak: {
    group: 'water',
    priority: 'soon',
    // Read at rest from the tank, whatever fills it. A store's outlet is no tank.
    controls: controls('as-is', 'as-is', 'as-is', 'none', 'none'),
    explainedBy: [...UNTRUSTED_SENSORS, 'no-water', 'long-run', 'over-pressure'],
    delays: { onS: 0, offS: 0 },
  },
  'short-cycling': {
    group: 'water',
    priority: 'soon',
    // A drive sleeps and wakes with each hand that is washed; as even as a clock, for hours, it is
    // a leak. A store has no tank to lose: chatter alone.
    controls: controls('as-is', 'adapted', 'as-is', 'adapted', 'adapted'),
    needsSteadySupply: true,
    explainedBy: [
      ...UNTRUSTED_SENSORS,
      'tank-air-lost',
      'tank-overcharged',
      'leak',
      'failed-start',
      'leg-lost',
      'dry-run',
      'cycle-count',
      'starts-over-limit',
    ],
    currentOnly: true,
    delays: { onS: 0, offS: DAY_S / 2 },
  },
  'starts-over-limit': {
    group: 'water',
    priority: 'soon',
    // The tables count starts at full voltage, which heat a motor; a drive makes none.
    controls: controls('as-is', 'none', 'as-is', 'as-is', 'as-is'),
    needsSteadySupply: true,
    explainedBy: [
      ...UNTRUSTED_SENSORS,
      'tank-air-lost',
      'tank-overcharged',
      'leak',
      'short-cycling',
      'failed-start',
      'dry-run',
    ],
    currentOnly: true,
    // Only a departure from habit, as `cycle-count` is: a habit that lasts is learnt.
    daysTeach: true,
    delays: { onS: 0, offS: 0 },
  },
  'cut-out-not-reached': {
    group: 'pump',
    priority: 'soon',
    // A drive has no cut-out. A valve holds a level under it by design: only runs that end under it
    // count.
    controls: controls('as-is', 'none', 'adapted', 'none', 'none'),
    needsSteadySupply: true,
    explainedBy: [
      ...NO_DELIVERY,
      ...UNTRUSTED_SENSORS,
      'slow-fill',
      'amps-low',
      'level-low',
      'supply-voltage',
      // Without air pressure leaps past cut-out between two readings.
      'tank-air-lost',
    ],
    delays: { onS: 0, offS: DAY_S / 2 },
  },
  'slow-fill': {
    group: 'pump',
    priority: 'soon',
    // Behind a drive or a valve demand and the valve's bypass set how long a run takes. A store of
    // one size takes as long as ever; a timer runs by its clock.
    controls: controls('as-is', 'none', 'none', 'adapted', 'none'),
    needsSteadySupply: true,
    explainedBy: [
      ...NO_DELIVERY,
      ...UNTRUSTED_SENSORS,
      'amps-low',
      'cut-out-not-reached',
      'level-low',
      'supply-voltage',
      'leak',
    ],
    delays: { onS: 0, offS: 3 * DAY_S },
  },
  'amps-high': {
    group: 'electric',
    priority: 'soon',
    // Behind a valve current is compared where only its bypass flows. A drive's follows demand and
    // level at any speed, and what it takes in is not what its motor draws: nothing is held against
    // it but its own way of stopping, which is `no-start`.
    controls: controls('as-is', 'none', 'adapted', 'as-is', 'as-is'),
    needsSteadySupply: true,
    // A leak under the tank lets the pump run out against less pressure, which costs more current.
    explainedBy: [
      ...UNTRUSTED_SENSORS,
      'leg-lost',
      'leg-imbalance',
      'supply-voltage',
      'failed-start',
      'slow-fill',
      'cut-out-not-reached',
      'long-run',
      'over-pressure',
    ],
    currentOnly: true,
    delays: { onS: 0, offS: 6 * HOUR_S },
    // Each way has its own CUSUM and half of a two-way EWMA.
    chance: { share: 3, charts: 1.5 },
  },
  'amps-low': {
    group: 'electric',
    priority: 'soon',
    // As `amps-high`.
    controls: controls('as-is', 'none', 'adapted', 'as-is', 'as-is'),
    needsSteadySupply: true,
    explainedBy: [
      ...UNTRUSTED_SENSORS,
      'dry-run',
      'long-run',
      'over-pressure',
      'slow-fill',
      'cut-out-not-reached',
      'level-low',
      'supply-voltage',
      'leg-lost',
      'leg-imbalance',
      'no-water',
    ],
    currentOnly: true,
    delays: { onS: 0, offS: 6 * HOUR_S },
    chance: { share: 3, charts: 1.5 },
  },
  'leg-imbalance': {
    group: 'electric',
    priority: 'soon',
    // What a rectifier draws from its three lines says nothing of the motor behind it.
    controls: controls('as-is', 'none', 'as-is', 'as-is', 'as-is'),
    explainedBy: [...UNTRUSTED_SENSORS, 'leg-lost', 'supply-voltage'],
    currentOnly: true,
    delays: { onS: 0, offS: HOUR_S },
  },
  'switch-shift': {
    group: 'water',
    priority: 'note',
    // A drive's wake and sleep points are settings of its own; a valve works behind an ordinary
    // switch.
    controls: controls('as-is', 'none', 'as-is', 'none', 'none'),
    explainedBy: [
      ...NO_DELIVERY,
      ...UNTRUSTED_SENSORS,
      'over-pressure',
      'cut-out-not-reached',
      'short-cycling',
      'tank-overcharged',
      'level-low',
      'tank-air-lost',
    ],
    daysTeach: true,
    delays: { onS: 0, offS: 2 * DAY_S },
  },
  'cycle-count': {
    group: 'water',
    priority: 'note',
    // A timer's count is what somebody set.
    controls: controls('as-is', 'as-is', 'as-is', 'as-is', 'none'),
    needsSteadySupply: true,
    explainedBy: [
      ...NO_DELIVERY,
      ...UNTRUSTED_SENSORS,
      ...MANY_STARTS,
      ...WEAK_DELIVERY,
      'over-pressure',
      'switch-shift',
      'node-silent',
      'no-run',
    ],
    currentOnly: true,
    daysTeach: true,
    delays: { onS: 0, offS: 0 },
    chance: { share: 1, charts: 1 },
  },
  // The server says these two: no well can find them.
  'site-silent': {
    group: 'sensing',
    priority: 'soon',
    controls: ALL_CONTROLS,
    explainedBy: [],
    neverGrouped: true,
    daysTeach: true,
  },
  'not-watched': {
    group: 'sensing',
    priority: 'now',
    controls: ALL_CONTROLS,
    explainedBy: [],
    neverGrouped: true,
    daysTeach: true,
  },
} as const satisfies Record<string, KindRow>;

export type AlarmKind = keyof typeof ROWS;
/** The kinds that a well can find: each has a watch. */
export type WatchedKind = KindsWith<'delays'>;
/** The kinds that are found by control charts. */
export type StatisticalKind = KindsWith<'chance'>;
type KindsWith<Column extends keyof KindRow> = {
  [Kind in AlarmKind]: (typeof ROWS)[Kind] extends Record<Column, unknown> ? Kind : never;
}[AlarmKind];

type Row<Kind extends AlarmKind> = KindRow<AlarmKind> &
  Required<Pick<KindRow, Extract<keyof (typeof ROWS)[Kind], 'delays' | 'chance'>>>;
/** Wider than the rows, and a proof that each kind is explained by kinds. */
export const CATALOGUE: { readonly [Kind in AlarmKind]: Row<Kind> } = ROWS;
