/**
 * Three phases, and one line carries nothing while others do: the motor single-phases and burns in minutes. Two lines must show
 * current and the third under a tenth of theirs, through a whole minute's readings.
 */
import { HOUR_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { lastMinute, pumpInMinute, activeSince, clearActive, normalAmpsOf } from '../scene-queries.ts';
import { formatAmps, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const LOST_LINE_RATIO = 0.1;
const MIN_READINGS = 3;
/** From here up the other two lines carry what the third does not. */
const OVERLOADED_RATIO = 1.2;
/** Of its usual current, where a drive is taken to be loaded (common practice, no source). */
const LOADED_RATIO = 0.6;

export const legLost: Watch = {
  alarm: 'leg-lost',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  onDelayS: 10,
  offDelayS: HOUR_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  const lines = scene.trigger === 'cycle' ? cycleLineAmps(scene) : minuteLineAmps(scene);
  if (!lines) return undefined;
  const maxAmps = Math.max(...lines);
  const minAmps = Math.min(...lines);
  const others = lines.reduce((sum, amps) => sum + amps, 0) - minAmps;
  if (maxAmps <= 0 || minAmps > LOST_LINE_RATIO * (others / (lines.length - 1))) return clearActive(memo);
  const at = lines.indexOf(minAmps) + 1;
  if (isIdleDrive(scene, maxAmps)) return undefined;
  const startMs = scene.trigger === 'cycle' ? (scene.cycle?.startedMs ?? scene.atMs) : scene.atMs - MINUTE_MS;
  return {
    sinceMs: activeSince(memo, startMs),
    why: `Line ${at} carries ${formatAmps(minAmps)} while the others carry ${lines
      .filter((_, line) => line !== at - 1)
      .map((amps) => formatAmps(amps))
      .join(' and ')}: the motor runs on two of three phases.`,
    evidence: { line: at, amps: roundTo(minAmps), othersAmps: roundTo(others / (lines.length - 1)) },
    causes: causesOf(scene, others / (lines.length - 1)),
  };
}

/** A motor on two lines draws well over its usual in them (root 3 times at full load, from memory); with a clamp off, what it ever did. The dangerous one leads. */
function causesOf(scene: Scene, othersAmps: number): Finding['causes'] {
  const usual = normalAmpsOf(scene);
  if (usual === undefined) return weighCauses({ 'lost-leg': 0.85, 'clamp-off': 0.15 });
  return othersAmps > OVERLOADED_RATIO * usual
    ? weighCauses({ 'lost-leg': 0.97, 'clamp-off': 0.03 })
    : weighCauses({ 'lost-leg': 0.6, 'clamp-off': 0.4 });
}

/** At light load the rectifier of a drive may leave one line without current. */
function isIdleDrive(scene: Scene, amps: number): boolean {
  if (scene.pump.card.control !== 'variable-speed') return false;
  const usual = normalAmpsOf(scene) ?? scene.pump.card.maxAmps ?? 0;
  return amps < LOADED_RATIO * usual;
}

function minuteLineAmps(scene: Scene): number[] | undefined {
  const minute = lastMinute(scene);
  const running = minute && pumpInMinute(scene, minute)?.running;
  if (!running || running.length < 3 || running.some((line) => line.n < MIN_READINGS)) return undefined;
  // Nothing means nothing: the highest robust reading of the minute counts for the line that may be lost.
  return running.map((line) => line.high);
}

function cycleLineAmps(scene: Scene): number[] | undefined {
  const { cycle } = scene;
  if (!cycle || cycle.readings < MIN_READINGS || cycle.amps === undefined) return undefined;
  if (cycle.amps2 === undefined || cycle.amps3 === undefined) return undefined;
  return [cycle.amps, cycle.amps2, cycle.amps3];
}
