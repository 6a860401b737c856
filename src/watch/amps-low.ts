/**
 * Running current under its normal: the pump does less work. Worn impellers and a falling water level take current away over weeks, a closed
 * valve or a broken shaft at once; what pressure did meanwhile parts them.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import {
  ampsShift,
  hasVolts,
  maybeSupply,
  supplyFacts,
  supplyText,
  supplyWeight,
  type AmpsShift,
} from './amps.ts';
import { freshCycles, numberOf } from './facts.ts';
import { levelFall } from './level-fall.ts';
import { sayAmps, sayShare, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

/** As few as have a quarter of fills without draws, so that they are of the same days as the amps. */
const FILLS = 10;
/** Fills of the same length to this share, while current fell by more than this: jaws that do not close, or a scale that was changed. */
const AS_EVER = 0.05;
const CLAMP_FROM = 0.03;
/**
 * A small generator under load runs down to 57 Hz and less: a twentieth of the speed takes a seventh of the power and lengthens the fills as
 * wear does (affinity laws). Without volts only its end tells it from wear; it stands in for the grid for two days or three.
 */
const GENERATOR_SHARE = 0.14;
const GENERATOR_FILLS = 1.05;
/**
 * A share of speed takes thrice that of power and some 2.4 times that of current; of the flow, against two thirds to four fifths of the shut-off head,
 * three to five times that (affinity laws, head falling with the square of flow; reckoned, not measured): twice the current at most.
 * Fills that lengthen by far more, for so little current, are throttled by a valve.
 */
const GENERATOR_RATIO = 3.5;
/** The runs whose median shows a slow shift (./amps.ts). */
const WEAK_OF_RUNS = 20;
const GENERATOR_MS = 72 * 3_600_000;

export const ampsLow: Watch = {
  alarm: 'amps-low',
  each: 'pump',
  on: ['cycle'],
  onDelayS: 0,
  offDelayS: 21_600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const levelFallM = levelFall(scene, memo);
  const shift = ampsShift(scene, memo);
  if (shift === null) delete memo['maybeSupply'];
  if (shift === null || shift?.way === 'high') delete memo['weakSinceMs'];
  if (!shift) return shift;
  if (shift.way !== 'low') return null;
  return mayBeGenerator(scene, memo, shift) ? undefined : finding(scene, memo, shift, levelFallM);
}

/** Less current and longer fills, since less than three days; the memo keeps from when on. */
function mayBeGenerator(scene: Scene, memo: Memo, shift: AmpsShift): boolean {
  const weak = weakRuns(scene, shift);
  const less = 1 - (median(weak.map(({ amps }) => amps!)) ?? shift.amps) / shift.normal;
  const fills = lengthOf(scene, weak) ?? 1;
  if (hasVolts(scene) || less > GENERATOR_SHARE) return false;
  if (fills < GENERATOR_FILLS || fills - 1 > GENERATOR_RATIO * less) return false;
  memo['weakSinceMs'] = numberOf(memo, 'weakSinceMs', scene.atMs);
  return scene.atMs - numberOf(memo, 'weakSinceMs', scene.atMs) < GENERATOR_MS;
}

function finding(scene: Scene, memo: Memo, shift: AmpsShift, levelFallM: number | undefined): Finding {
  const small = maybeSupply(scene, memo, shift);
  const supply = small ? 0.8 : hasVolts(scene) ? supplyWeight(shift) : 0.08;
  const fills = fillShare(scene);
  const since = shift.slow ? 'since it was first learnt' : `over the last ${shift.runs} runs`;
  const fillText =
    fills !== undefined && fills > 1.1 ? `, and its fills take ${sayShare(fills - 1)} longer` : '';
  return {
    sinceMs: shift.sinceMs,
    why: `The pump draws ${sayAmps(shift.amps)}, ${sayShare(shift.share)} less than its usual ${sayAmps(shift.normal)} ${since}${fillText}${supplyText(shift, small)}.`,
    evidence: {
      amps: tidy(shift.amps),
      normalAmps: tidy(shift.normal),
      share: tidy(shift.share, 3),
      runs: shift.runs,
      ...supplyFacts(scene, shift),
      ...(fills !== undefined && { fillShare: tidy(fills) }),
      ...(levelFallM !== undefined && { levelFallM }),
    },
    causes: causesOf(shift, fills, supply),
  };
}

/** The last runs that the shift is of: the older ones among them drew as ever, and filled as ever. */
function weakRuns(scene: Scene, { amps, normal }: AmpsShift): Cycle[] {
  const between = (amps + normal) / 2;
  return freshCycles(scene, WEAK_OF_RUNS).filter((cycle) => cycle.amps !== undefined && cycle.amps < between);
}

/** The shortest fills now against the shortest as learnt: over 1, less is delivered. */
function fillShare(scene: Scene): number | undefined {
  const last = freshCycles(scene, FILLS);
  const share = last.length < FILLS ? undefined : lengthOf(scene, last);
  if (share === undefined) return undefined;
  // Readings 10 s apart know the length of a fill to no better than that.
  const grain = Math.max(...last.map((cycle) => cycle.ranS / Math.max(1, cycle.readings)));
  return Math.abs(share - 1) * usualFillS(scene)! <= grain ? 1 : share;
}

function lengthOf(scene: Scene, runs: readonly Cycle[]): number | undefined {
  const usualS = usualFillS(scene);
  if (usualS === undefined || usualS <= 0 || runs.length === 0) return undefined;
  const sorted = runs.map((cycle) => cycle.ranS).sort((a, b) => a - b);
  return median(sorted.slice(0, Math.ceil(sorted.length / 2)))! / usualS;
}

/** Only behind a plain switch is the length of a fill the pump's own. */
function usualFillS({ pump }: Scene): number | undefined {
  return pump.card.control === 'pressure-switch' ? pump.pinned?.ranLowS?.median : undefined;
}

function causesOf(shift: AmpsShift, fills: number | undefined, supply: number): Finding['causes'] {
  const weak = fills !== undefined && fills > 1.05;
  // A pump that lifts as much as ever at the same pressures does as much work as ever: less current is then the clamp's.
  const asEver = fills !== undefined && Math.abs(fills - 1) < AS_EVER && Math.abs(shift.share) > CLAMP_FROM;
  return weigh({
    'worn-pump': weak || shift.slow ? 0.45 : 0.3,
    'low-well': 0.2,
    'closed-valve': shift.slow ? 0.08 : 0.2,
    'failing-motor': 0.05,
    'clamp-off': asEver ? (supply > 0.5 ? 0.3 : 0.9) : 0.05,
    'supply-voltage': supply,
  });
}
