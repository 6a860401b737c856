/**
 * The motor tried and did not run: current as of a start, then nothing, perhaps again and again. One such try alone is not told,
 * since the next may succeed; two within the hour are, and one is when water is still called for and none comes.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { isFresh, lastMinute, lowestCutIn, PSI, usesPressure, usualAmps } from './facts.ts';
import { sayAmps, sayShare, sayTime, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { noteStart, startShape, type StartShape } from './start-shape.ts';
import { weigh } from './weigh.ts';

/** Good starts for so long: a motor that starts badly does so again and again, with good starts between. */
const OFF_DELAY_S = 6 * 3600;
const WITHIN_MS = 3_600_000;
const TRIES = 2;
/** A run this short at this many times the usual current is a motor that did not come up to speed. Starting draws six times and more. */
const SHORT_S = 45;
const HEAVY = 1.8;
/**
 * Where pressure rose meanwhile the motor turned (unless another pump raised it), and one or two readings may be of a good start's inrush:
 * there only the full current of a held rotor counts.
 */
const HEAVY_OF_INRUSH = 3;
const FEW_READINGS = 3;
/** Of the peak of its good starts: over it the whole motor pulled and was held. A main winding alone draws two thirds to 0.8 (common practice, no source). */
const HELD_SHARE = 0.85;

export const failedStart: Watch = {
  alarm: 'failed-start',
  each: 'pump',
  on: ['cycle', 'minute'],
  onDelayS: 0,
  offDelayS: OFF_DELAY_S,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const usual = measureOf(scene);
  if (scene.cycle) noteStart(memo, scene.cycle, failed(scene.cycle, usual));
  const { cycles, run } = scene.pump;
  const last = cycles[cycles.length - 1];
  if (!last || !isFresh(scene, last.startedMs)) return undefined;
  if (!failed(last, usual)) return null;
  if (
    run &&
    run.ranS > SHORT_S &&
    (run.amps === undefined || usual === undefined || run.amps < HEAVY * usual)
  )
    return null;
  const tries = lastTries(scene, usual);
  const enough = tries.length >= TRIES || (scene.why === 'minute' && stillCalled(scene));
  if (!enough) return undefined;
  return finding(scene, tries, usual, startShape(memo, tries, scene.pump.card));
}

/** What a start is held against: the usual current. A drive starts softly and runs at any speed, so there only the motor's maximum is. */
function measureOf(scene: Scene): number | undefined {
  const { card } = scene.pump;
  return card.control === 'variable-speed' ? card.maxAmps : (usualAmps(scene) ?? card.maxAmps);
}

function failed(cycle: Cycle, usual: number | undefined): boolean {
  if (cycle.flags.includes('failed-start')) return true;
  if (usual === undefined || cycle.amps === undefined || cycle.ranS >= SHORT_S) return false;
  const mostlyInrush = cycle.riseDelayS !== undefined || cycle.readings < FEW_READINGS;
  return cycle.amps > (mostlyInrush ? HEAVY_OF_INRUSH : HEAVY) * usual;
}

/** Failed tries in a row, within the hour before the last one. */
function lastTries(scene: Scene, usual: number | undefined): Cycle[] {
  const { cycles } = scene.pump;
  const found: Cycle[] = [];
  const latestMs = cycles[cycles.length - 1]?.startedMs ?? 0;
  for (let at = cycles.length - 1; at >= 0; at--) {
    const cycle = cycles[at]!;
    if (!failed(cycle, usual) || latestMs - cycle.startedMs > WITHIN_MS || !isFresh(scene, cycle.startedMs))
      break;
    found.push(cycle);
  }
  return found.reverse();
}

function stillCalled(scene: Scene): boolean {
  const minute = lastMinute(scene);
  const pump = minute?.pumps[scene.pump.index];
  if (!minute || !pump || pump.ranS > 0 || pump.heardS < 40) return false;
  if (pump.calls === true) return true;
  const cutIn = lowestCutIn(scene);
  return (
    usesPressure(scene.pump) &&
    cutIn !== undefined &&
    minute.kpa !== undefined &&
    minute.kpa.high < cutIn - PSI
  );
}

function finding(
  scene: Scene,
  tries: readonly Cycle[],
  usual: number | undefined,
  shape: StartShape,
): Finding {
  const last = tries[tries.length - 1]!;
  const peak = Math.max(...tries.map((cycle) => Math.max(cycle.startAmps ?? 0, cycle.amps ?? 0)));
  const everyS = spacingS(tries);
  const many =
    tries.length === 1
      ? 'The motor tried to start and did not run'
      : `The motor tried to start ${tries.length} times and did not run`;
  const often = everyS === undefined ? '' : `, about every ${sayTime(everyS)}, as an overload lets it`;
  const drew = peak > 0 ? `: it drew up to ${sayAmps(peak)} for ${sayTime(last.ranS)}` : '';
  const against = usual === undefined || peak === 0 ? '' : `, against ${sayAmps(usual)} when it runs`;
  return {
    sinceMs: tries[0]!.startedMs,
    why: `${many}${often}${drew}${against}.${sayShape(shape)}`,
    evidence: {
      tries: tries.length,
      ranS: tidy(last.ranS, 1),
      ...(everyS !== undefined && { everyS: tidy(everyS, 0) }),
      ...(peak > 0 && { peakAmps: tidy(peak, 1) }),
      ...(usual !== undefined && { normalAmps: tidy(usual) }),
      ...(shape.peakShare !== undefined && { peakShare: tidy(shape.peakShare) }),
      ...(shape.codeLetter !== undefined && { codeLetter: shape.codeLetter }),
      ...(shape.startS !== undefined && { startS: tidy(shape.startS) }),
      ...(shape.usualStartS !== undefined && { usualStartS: tidy(shape.usualStartS) }),
    },
    causes: causesOf(scene, shape, everyS !== undefined),
  };
}

/** Time from try to try, s, where they come evenly: within a third of their middle. */
function spacingS(tries: readonly Cycle[]): number | undefined {
  const steps = tries.slice(1).map((cycle, at) => (cycle.startedMs - tries[at]!.startedMs) / 1000);
  const middle = median(steps);
  if (middle === undefined || steps.length < 2) return undefined;
  return steps.every((step) => Math.abs(step - middle) <= middle / 3) ? middle : undefined;
}

function sayShape({ peakShare, startS, usualStartS }: StartShape): string {
  const peak =
    peakShare === undefined
      ? ''
      : peakShare > HELD_SHARE
        ? ' That is the full starting current of a rotor that is held.'
        : ` That is ${sayShare(peakShare)} of what its good starts took, as of a motor that starts on one winding.`;
  const longer =
    startS === undefined || usualStartS === undefined
      ? ''
      : ` Its good starts had come to take ${sayTime(startS)}, where ${sayTime(usualStartS)} was usual.`;
  return peak + longer;
}

/** Without a record of the start a held rotor and a dead capacitor look alike, and share the weight. */
function causesOf(scene: Scene, { peakShare, startS }: StartShape, even: boolean): Finding['causes'] {
  const three = scene.pump.card.phase === 3;
  const held = peakShare === undefined ? 1 : peakShare > HELD_SHARE ? 2 : 0.4;
  const one = peakShare === undefined ? 1 : peakShare > HELD_SHARE ? 0.5 : 2;
  const slower = startS === undefined ? 1 : 2;
  return weigh({
    'stuck-rotor': (0.35 * held) / slower,
    'failing-capacitor': three ? 0.02 : 0.35 * one * slower,
    'failing-motor': 0.12,
    'overload-tripping': even ? 0.15 : 0.1,
    'lost-leg': three ? 0.3 : 0,
    'supply-voltage': 0.06,
  });
}
