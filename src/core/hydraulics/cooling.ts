/**
 * How fast this tank's air cools, learnt from its own fills. While nobody draws water after a fill,
 * the tank holds the same water: with the right time constant the reckoned room is level, with a
 * wrong one it bends. Each candidate collects its misfit over many fills; a fill with draws after
 * it fits none of them, so each misfit is capped and such a fill says nothing.
 */
import { DEFAULT_COOLING_S } from './air.ts';
import { airVolumesOf } from './fill.ts';
import { fitLine } from './linear-fit.ts';
import type { Trace } from './trace.ts';

/** Candidates, s, in even ratios; 0 is Boyle without warmth. */
const CANDIDATE_COOLINGS_S = [0, 5, 10, 15, 20, 25, 30, 36, 43, 52, 62, 75, 90, 120, 180, 300] as const;
/** Memory: an old fill's word fades to a third after so many fills. */
const MEMORY_FILLS = 60;
const MIN_FILLS = 1;
/**
 * What is likely before anything was seen: around `DEFAULT_COOLING_S`, a factor of two either way,
 * worth two fills' word. Air that never cools and air that is never warm look alike after a fill
 * with a short rest; of these, never warm is the likelier.
 */
const PRIOR_FACTOR = 2;
const PRIOR_WEIGHT = 2;

export interface CoolingEstimate {
  /** Summed capped misfit of each candidate. */
  misfit: number[];
  /** Summed weight of the fills that told anything. */
  weight: number;
}

export function newCoolingEstimate(): CoolingEstimate {
  return { misfit: CANDIDATE_COOLINGS_S.map(() => 0), weight: 0 };
}

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
  const misfits = CANDIDATE_COOLINGS_S.map((coolingS) => misfitOf(trace, from, { ...options, coolingS }));
  const best = Math.min(...misfits);
  const cap = 4;
  if (best >= cap) return;
  const keep = Math.exp(-1 / MEMORY_FILLS);
  cooling.weight = cooling.weight * keep + 1;
  for (const [i, misfit] of misfits.entries()) {
    cooling.misfit[i] = Math.round((cooling.misfit[i]! * keep + Math.min(cap * 4, misfit)) * 1000) / 1000;
  }
}

/**
 * Mean square of what bends, over that of the noise, with water level or falling after the fill.
 */
function misfitOf(
  trace: Trace,
  from: number,
  air: { coolingS: number; atmosphereKpa: number; noiseKpa: number },
): number {
  const { s, kpa } = trace.after;
  // In kPa of pressure at the last bin, so that it compares with the noise.
  const scale = (kpa.at(-1)! + air.atmosphereKpa) ** 2;
  const y = airVolumesOf(trace, air).after.map((room) => room * scale);
  const line = fitLine(s, y, from);
  if (!line) return Infinity;
  const slope = Math.max(0, line.slope);
  let sum = 0;
  for (let i = from; i < y.length; i++) sum += (y[i]! - line.y - slope * (s[i]! - line.x)) ** 2;
  return sum / (y.length - from) / air.noiseKpa ** 2;
}

function priorPenalty(coolingS: number): number {
  return PRIOR_WEIGHT * (Math.log(Math.max(5, coolingS) / DEFAULT_COOLING_S) / Math.log(PRIOR_FACTOR)) ** 2;
}

/**
 * The time constant found, s, or undefined before a fill told anything. Between two candidates by a
 * parabola.
 */
export function estimatedCoolingS(cooling: CoolingEstimate): number | undefined {
  if (cooling.weight < MIN_FILLS) return undefined;
  const misfit = cooling.misfit.map((sum, i) => sum + priorPenalty(CANDIDATE_COOLINGS_S[i]!));
  let best = 0;
  for (let i = 1; i < misfit.length; i++) if (misfit[i]! < misfit[best]!) best = i;
  const [left, mid, right] = [misfit[best - 1], misfit[best]!, misfit[best + 1]];
  if (left === undefined || right === undefined) return CANDIDATE_COOLINGS_S[best]!;
  const bend = left - 2 * mid + right;
  const shift = bend > 0 ? (left - right) / (2 * bend) : 0;
  const towards = shift > 0 ? CANDIDATE_COOLINGS_S[best + 1]! : CANDIDATE_COOLINGS_S[best - 1]!;
  return CANDIDATE_COOLINGS_S[best]! + Math.abs(shift) * (towards - CANDIDATE_COOLINGS_S[best]!);
}
