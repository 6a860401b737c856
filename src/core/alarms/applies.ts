/**
 * Which alarm makes sense of which kind of control, as one literal table. A pressure switch lets a
 * pump run at full speed between two points; a drive holds one pressure and lets speed and current
 * follow what is drawn; a constant-pressure valve holds it by throttling a pump that runs at full
 * speed, and fills the tank slowly at the end; a float fills a store, a timer does so by the clock,
 * and pressure means nothing of either. What does not apply is never asked; what applies in a form
 * of its own is told apart in the watch's own file.
 */
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import type { Control, PumpCard } from '../domain/card.ts';

export type Applicability = 'as-is' | 'adapted' | 'none';
type ControlRow = Record<Control, Applicability>;

/** Watched by what no control changes: supply, node, weather, levels. */
const ALL_CONTROLS: ControlRow = controlRow('as-is', 'as-is', 'as-is', 'as-is', 'as-is');

function controlRow(
  pressureSwitch: Applicability,
  variableSpeed: Applicability,
  constantPressureValve: Applicability,
  float: Applicability,
  timer: Applicability,
): ControlRow {
  return {
    'pressure-switch': pressureSwitch,
    'variable-speed': variableSpeed,
    'constant-pressure-valve': constantPressureValve,
    float,
    timer,
  };
}

/**
 * In the order of the contract's list; `site-silent` and `not-watched` are no watches of a well.
 */
export const APPLIES: Record<AlarmKind, ControlRow> = {
  // A drive and a valve run for as long as water is drawn: a garden is a run of a night. Held far
  // under their pressure is the sign there. A store is judged by its own longest fill alone.
  'long-run': controlRow('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
  // A drive without water goes to full speed: its current is low only against its own highest. A
  // store has low current alone.
  'dry-run': controlRow('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
  // A drive starts softly, and its running current spans a factor of four: only the motor's maximum
  // can be held against it.
  'failed-start': controlRow('as-is', 'adapted', 'as-is', 'as-is', 'as-is'),
  // A store's pressure does not call; its contact does.
  'no-start': controlRow('as-is', 'as-is', 'as-is', 'adapted', 'adapted'),
  'power-lost': ALL_CONTROLS,
  // The rectifier of a drive at light load draws unevenly from its lines: only under load does a
  // line with nothing mean that it is lost.
  'leg-lost': controlRow('as-is', 'adapted', 'as-is', 'as-is', 'as-is'),
  'no-water': controlRow('as-is', 'as-is', 'as-is', 'none', 'none'),
  // Where pressure is measured a pump that is wanted and does not come is `no-start`; but of two
  // that take turns one may drop out.
  'no-run': controlRow('adapted', 'adapted', 'adapted', 'as-is', 'as-is'),
  'store-low': ALL_CONTROLS,
  // Held pressure is the measure of a drive. Into a store pressure is what hose and height make it:
  // the relief valve alone counts.
  'over-pressure': controlRow('as-is', 'adapted', 'as-is', 'adapted', 'adapted'),
  // A drive sleeps and wakes with each hand that is washed; as even as a clock, for hours, it is a
  // leak. A store has no tank to lose: chatter alone.
  'short-cycling': controlRow('as-is', 'adapted', 'as-is', 'adapted', 'adapted'),
  // The tables count starts at full voltage, which heat a motor; a drive makes none.
  'starts-over-limit': controlRow('as-is', 'none', 'as-is', 'as-is', 'as-is'),
  // Behind a valve current is compared where only its bypass flows. A drive's follows demand and
  // level at any speed, and what it takes in is not what its motor draws: nothing is held against
  // it but its own way of stopping, which is `no-start`.
  'amps-high': controlRow('as-is', 'none', 'adapted', 'as-is', 'as-is'),
  'amps-low': controlRow('as-is', 'none', 'adapted', 'as-is', 'as-is'),
  // What a rectifier draws from its three lines says nothing of the motor behind it.
  'leg-imbalance': controlRow('as-is', 'none', 'as-is', 'as-is', 'as-is'),
  'supply-voltage': ALL_CONTROLS,
  // A drive has no cut-out. A valve holds a level under it by design: only runs that end under it
  // count.
  'cut-out-not-reached': controlRow('as-is', 'none', 'adapted', 'none', 'none'),
  // Behind a drive or a valve demand and the valve's bypass set how long a run takes. A store of
  // one size takes as long as ever; a timer runs by its clock.
  'slow-fill': controlRow('as-is', 'none', 'none', 'adapted', 'none'),
  'level-low': ALL_CONTROLS,
  // A drive's tank only spaces its sleep. Behind a valve the bypass fills the tank: the time of its
  // shortest fills tells, rates do not, and with a few gallons pressure falls as fast over the air
  // charge as under it.
  'tank-air-lost': controlRow('as-is', 'none', 'adapted', 'none', 'none'),
  'tank-overcharged': controlRow('as-is', 'none', 'none', 'none', 'none'),
  // Read at rest from the tank, whatever fills it. A store's outlet is no tank.
  leak: controlRow('as-is', 'as-is', 'as-is', 'none', 'none'),
  'freeze-risk': ALL_CONTROLS,
  // A drive's wake and sleep points are settings of its own; a valve works behind an ordinary
  // switch.
  'switch-shift': controlRow('as-is', 'none', 'as-is', 'none', 'none'),
  // A timer's count is what somebody set.
  'cycle-count': controlRow('as-is', 'as-is', 'as-is', 'as-is', 'none'),
  'node-silent': ALL_CONTROLS,
  'site-silent': ALL_CONTROLS,
  'not-watched': ALL_CONTROLS,
  'node-conflict': ALL_CONTROLS,
  'sensor-fault': controlRow('as-is', 'adapted', 'adapted', 'adapted', 'adapted'),
};

/** Is this alarm asked of a pump with this control? */
export function appliesTo(alarm: AlarmKind, control: Control): boolean {
  return APPLIES[alarm][control] !== 'none';
}

/** Is it asked of a well: does it make sense of any of its pumps? */
export function appliesToWell(alarm: AlarmKind, pumps: readonly { card: PumpCard }[]): boolean {
  return pumps.some(({ card }) => appliesTo(alarm, card.control));
}
