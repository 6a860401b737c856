/**
 * Three phases, and one line carries nothing while others do: the motor single-phases and burns in minutes. Two lines must show
 * current and the third under a tenth of theirs, through a whole minute's readings.
 */
import { lastMinute, pumpOf, standingSince, standsNot, usualAmps } from './facts.ts';
import { sayAmps, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const NOTHING_SHARE = 0.1;
const READINGS = 3;
/** From here up the other two lines carry what the third does not. */
const MORE_SHARE = 1.2;
/** Of its usual current, where a drive is taken to be loaded (common practice, no source). */
const LOADED_SHARE = 0.6;

export const legLost: Watch = {
  alarm: 'leg-lost',
  each: 'pump',
  on: ['minute', 'cycle'],
  onDelayS: 10,
  offDelayS: 3600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const lines = scene.why === 'cycle' ? ofCycle(scene) : ofMinute(scene);
  if (!lines) return undefined;
  const most = Math.max(...lines);
  const least = Math.min(...lines);
  const others = lines.reduce((sum, amps) => sum + amps, 0) - least;
  if (most <= 0 || least > NOTHING_SHARE * (others / (lines.length - 1))) return standsNot(memo);
  const at = lines.indexOf(least) + 1;
  if (isIdleDrive(scene, most)) return undefined;
  const startMs = scene.why === 'cycle' ? (scene.cycle?.startedMs ?? scene.atMs) : scene.atMs - 60_000;
  return {
    sinceMs: standingSince(memo, startMs),
    why: `Line ${at} carries ${sayAmps(least)} while the others carry ${lines
      .filter((_, line) => line !== at - 1)
      .map((amps) => sayAmps(amps))
      .join(' and ')}: the motor runs on two of three phases.`,
    evidence: { line: at, amps: tidy(least), othersAmps: tidy(others / (lines.length - 1)) },
    causes: causesOf(scene, others / (lines.length - 1)),
  };
}

/** A motor on two lines draws well over its usual in them (root 3 times at full load, from memory); with a clamp off, what it ever did. The dangerous one leads. */
function causesOf(scene: Scene, othersAmps: number): Finding['causes'] {
  const usual = usualAmps(scene);
  if (usual === undefined) return weigh({ 'lost-leg': 0.85, 'clamp-off': 0.15 });
  return othersAmps > MORE_SHARE * usual
    ? weigh({ 'lost-leg': 0.97, 'clamp-off': 0.03 })
    : weigh({ 'lost-leg': 0.6, 'clamp-off': 0.4 });
}

/** At light load the rectifier of a drive may leave one line without current. */
function isIdleDrive(scene: Scene, amps: number): boolean {
  if (scene.pump.card.control !== 'variable-speed') return false;
  const usual = usualAmps(scene) ?? scene.pump.card.maxAmps ?? 0;
  return amps < LOADED_SHARE * usual;
}

function ofMinute(scene: Scene): number[] | undefined {
  const minute = lastMinute(scene);
  const running = minute && pumpOf(scene, minute)?.running;
  if (!running || running.length < 3 || running.some((line) => line.n < READINGS)) return undefined;
  // Nothing means nothing: the highest robust reading of the minute counts for the line that may be lost.
  return running.map((line) => line.high);
}

function ofCycle(scene: Scene): number[] | undefined {
  const { cycle } = scene;
  if (!cycle || cycle.readings < READINGS || cycle.amps === undefined) return undefined;
  if (cycle.amps2 === undefined || cycle.amps3 === undefined) return undefined;
  return [cycle.amps, cycle.amps2, cycle.amps3];
}
