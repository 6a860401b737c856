/**
 * How fast this tank's air cools and how far a fill warms it, learnt from its own fills. While
 * nobody draws water after a fill, the tank holds the same water: with the right time constant and
 * warmth the reckoned room is level, with wrong ones it bends. Each pair of candidates collects its
 * misfit over many fills; a fill with draws after it fits none of them, so each misfit is capped
 * and such a fill says nothing.
 */
import { DEFAULT_RESPONSE, warmthAfter, type AirResponse } from './air.ts';
import { fitLine } from './linear-fit.ts';
import type { Trace } from './trace.ts';

/** Candidates, s, in even ratios; 0 is Boyle without warmth. */
const CANDIDATE_COOLINGS_S = [0, 5, 10, 15, 20, 25, 30, 36, 43, 52, 62, 75, 90, 120, 180, 300] as const;
/** Candidates of the other number, in even steps. */
const CANDIDATE_WARM_RATIOS = [1, 0.8, 0.6, 0.4] as const;
const COOLINGS = CANDIDATE_COOLINGS_S.length;
const RATIOS = CANDIDATE_WARM_RATIOS.length;
/** Memory: an old fill's word fades to a third after so many fills. */
const MEMORY_FILLS = 60;
const MIN_FILLS = 1;
/**
 * What is likely before anything was seen: around the default, a factor of three of the time
 * constant either way and a fifth of the warmth less, worth a third of a fill's word (argued, not
 * measured). Air that never cools and air that is never warm look alike after a fill with a short
 * rest; of these, never warm is the likelier.
 */
const PRIOR_FACTOR = 3;
const PRIOR_RATIO = 0.2;
const PRIOR_WEIGHT = 0.3;

export interface CoolingEstimate {
  /** Summed capped misfit of each pair, by time constant and within it by warmth. */
  misfit: number[];
  /** Summed weight of the fills that told anything. */
  weight: number;
}

export function newCoolingEstimate(): CoolingEstimate {
  return { misfit: Array.from({ length: COOLINGS * RATIOS }, () => 0), weight: 0 };
}

/** A pair that fits worse than this by so many times the noise does not fit. */
const MAX_MISFIT = 4;

/**
 * Learns from a trace whose rest was seen for long enough. `noiseKpa`: scatter of one bin's
 * pressure. A steady draw is allowed for (a straight line), so a leak does not pass for cooling.
 */
export function learnCooling(
  cooling: CoolingEstimate,
  trace: Trace,
  options: { atmosphereKpa: number; noiseKpa: number },
): void {
  const { s } = trace.after;
  const stopS = trace.stopS ?? 0;
  const from = s.findIndex((x) => x > stopS + 1);
  if (from < 0 || s.length - from < 8 || s.at(-1)! < stopS + 150) return;
  const misfits = misfitsOf(trace, from, options);
  if (Math.min(...misfits) >= MAX_MISFIT) return;
  const keep = Math.exp(-1 / MEMORY_FILLS);
  cooling.weight = cooling.weight * keep + 1;
  for (const [i, misfit] of misfits.entries()) {
    const sum = cooling.misfit[i]! * keep + Math.min(MAX_MISFIT * 4, misfit);
    cooling.misfit[i] = Math.round(sum * 1000) / 1000;
  }
}

/**
 * Of each pair: mean square of what bends, over that of the noise, with water level or falling
 * after the fill.
 */
function misfitsOf(trace: Trace, from: number, air: { atmosphereKpa: number; noiseKpa: number }): number[] {
  const { s, kpa } = trace.after;
  const lnAbsolute = (at: number): number => Math.log(Math.max(1, at + air.atmosphereKpa));
  const ln = [trace.before, trace.run, trace.after].map((points) => points.kpa.map(lnAbsolute));
  // In kPa of pressure at the last bin, so that it compares with the noise.
  const scale = (kpa.at(-1)! + air.atmosphereKpa) ** 2;
  const y = kpa.map(() => 0);
  return CANDIDATE_COOLINGS_S.flatMap((coolingS) => {
    const warmth = warmthsAfter(trace, ln, coolingS);
    return CANDIDATE_WARM_RATIOS.map((ratio) => {
      for (let i = from; i < y.length; i++) y[i] = scale * Math.exp(ratio * warmth[i]! - ln[2]![i]!);
      return bendOf(s, y, from) / air.noiseKpa ** 2;
    });
  });
}

/** Warmth of the air at the points after the run, if a fill warms all of it. */
function warmthsAfter(trace: Trace, ln: readonly (readonly number[])[], coolingS: number): number[] {
  let warmth = trace.warmthBefore;
  let lastS: number | undefined;
  let lastLn = 0;
  const [, , after] = [trace.before, trace.run, trace.after].map((points, part) =>
    points.s.map((s, i) => {
      const now = ln[part]![i]!;
      if (lastS !== undefined) warmth = warmthAfter(warmth, s - lastS, now - lastLn, coolingS);
      lastS = s;
      lastLn = now;
      return warmth;
    }),
  );
  return after!;
}

/** Mean square about the straight line that is level or rises. */
function bendOf(s: readonly number[], y: readonly number[], from: number): number {
  const line = fitLine(s, y, from);
  if (!line) return Infinity;
  const slope = Math.max(0, line.slope);
  let sum = 0;
  for (let i = from; i < y.length; i++) sum += (y[i]! - line.y - slope * (s[i]! - line.x)) ** 2;
  return sum / (y.length - from);
}

function priorPenalty(coolingS: number, warmRatio: number): number {
  const { coolingS: likelyS, warmRatio: likelyRatio } = DEFAULT_RESPONSE;
  const byTime = Math.log(Math.max(5, coolingS) / likelyS) / Math.log(PRIOR_FACTOR);
  const byWarmth = (warmRatio - likelyRatio) / PRIOR_RATIO;
  return PRIOR_WEIGHT * (byTime ** 2 + byWarmth ** 2);
}

/**
 * What was found, or undefined before a fill told anything. Air that takes more of the warmth and
 * loses it faster is much like air that takes less and keeps it: first the best time constant for
 * each share, then the best share, and the time constant that goes with it.
 */
export function estimatedResponse(cooling: CoolingEstimate): AirResponse | undefined {
  if (cooling.weight < MIN_FILLS) return undefined;
  const best = CANDIDATE_WARM_RATIOS.map((warmRatio, ratio) =>
    lowestOf(
      CANDIDATE_COOLINGS_S.map(
        (coolingS, time) => cooling.misfit[time * RATIOS + ratio]! + priorPenalty(coolingS, warmRatio),
      ),
    ),
  );
  const { at } = lowestOf(best.map(({ least }) => least));
  return {
    coolingS: betweenCandidates(
      best.map((one) => betweenCandidates(CANDIDATE_COOLINGS_S, one.at)),
      at,
    ),
    warmRatio: betweenCandidates(CANDIDATE_WARM_RATIOS, at),
  };
}

/** Where the lowest lies, and how low it is, between whole places by a parabola. */
function lowestOf(misfit: readonly number[]): { at: number; least: number } {
  const least = Math.min(...misfit);
  const at = misfit.indexOf(least);
  const [left, right] = [misfit[at - 1], misfit[at + 1]];
  if (left === undefined || right === undefined) return { at, least };
  const bend = left - 2 * least + right;
  if (bend <= 0) return { at, least };
  return { at: at + (left - right) / (2 * bend), least: least - (left - right) ** 2 / (8 * bend) };
}

/** The value at a place between whole ones. */
function betweenCandidates(candidates: readonly number[], at: number): number {
  const low = Math.floor(at);
  const value = candidates[low]!;
  return low === at ? value : value + (at - low) * (candidates[low + 1]! - value);
}
