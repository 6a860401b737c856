/**
 * Three phases, and one line carries nothing while others do: the motor single-phases and burns in
 * minutes. Two lines must show current and the third under a tenth of theirs, through a whole
 * minute's readings.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import type { WeighedCause } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Because } from '../../../../shared/text/en/reasons/because.ts';
import { cannotTell, type Evaluation } from '../evaluation.ts';
import {
  lastMinute,
  pumpInMinute,
  activeSince,
  forgetSince,
  normalAmpsOf,
  type SinceMemory,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Under a tenth of the others, as the head of this file says: a clamp on a dead line may pick up
 * some of its neighbors' current. Three readings, since one or two may lie in a start (argued, not
 * measured).
 */
const LOST_LINE_RATIO = 0.1;
const MIN_READINGS = 3;
/** From here up the other two lines carry what the third does not. */
const OVERLOADED_RATIO = 1.2;
/** Of its usual current, where a drive is taken to be loaded (common practice, no source). */
const LOADED_RATIO = 0.6;

export const legLost: Watch<SinceMemory> = {
  alarm: 'leg-lost',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: SinceMemory): Evaluation {
  const lines = scene.trigger === 'cycle' ? cycleLineAmps(scene) : minuteLineAmps(scene);
  if (!lines) return cannotTell(whyNoLines(scene));
  const maxAmps = Math.max(...lines);
  const minAmps = Math.min(...lines);
  const others = lines.reduce((sum, amps) => sum + amps, 0) - minAmps;
  if (maxAmps <= 0 || minAmps > LOST_LINE_RATIO * (others / (lines.length - 1))) return forgetSince(memory);
  const at = lines.indexOf(minAmps) + 1;
  if (isIdleDrive(scene, maxAmps)) return cannotTell('light-load');
  const startMs = scene.trigger === 'cycle' ? (scene.cycle?.startedMs ?? scene.atMs) : scene.atMs - MINUTE_MS;
  return {
    is: 'active',
    sinceMs: activeSince(memory, startMs),
    reason: 'line-without-current',
    figures: { line: at, lineA: minAmps, otherLinesA: lines.filter((_, line) => line !== at - 1) },
    evidence: { line: at, amps: roundTo(minAmps), othersAmps: roundTo(others / (lines.length - 1)) },
    causes: causesOf(scene, others / (lines.length - 1)),
  };
}

/**
 * A motor on two lines draws well over its usual in them (root 3 times at full load, from memory);
 * with a clamp off, what it ever did. The dangerous one leads.
 */
function causesOf(scene: Scene, othersAmps: number): WeighedCause[] {
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

function whyNoLines(scene: Scene): Because {
  if (scene.trigger === 'cycle')
    return scene.cycle?.amps3 === undefined ? 'needs-three-lines' : 'too-few-readings';
  const minute = lastMinute(scene);
  const pump = minute && pumpInMinute(scene, minute);
  if (!pump || pump.heardS === 0) return 'needs-current';
  if (pump.ranS === 0) return 'pump-off';
  return pump.running.length < 3 ? 'needs-three-lines' : 'too-few-readings';
}

function minuteLineAmps(scene: Scene): number[] | undefined {
  const minute = lastMinute(scene);
  const running = minute && pumpInMinute(scene, minute)?.running;
  if (!running || running.length < 3 || running.some((line) => line.n < MIN_READINGS)) return undefined;
  // Nothing means nothing: the highest robust reading of the minute counts for the line that may be
  // lost.
  return running.map((line) => line.high);
}

function cycleLineAmps(scene: Scene): number[] | undefined {
  const { cycle } = scene;
  if (!cycle || cycle.readings < MIN_READINGS || cycle.amps === undefined) return undefined;
  if (cycle.amps2 === undefined || cycle.amps3 === undefined) return undefined;
  return [cycle.amps, cycle.amps2, cycle.amps3];
}
