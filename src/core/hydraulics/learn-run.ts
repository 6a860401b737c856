/**
 * Each run with the rests beside it, kept as a trace until it is whole: what the pump delivers, how
 * the air cools and where it ends is learnt from it.
 */
import type { AirResponse } from './air.ts';
import { estimatedResponse, learnCooling } from './cooling.ts';
import { discardFills, learnDelivery } from './delivery.ts';
import { measureFill } from './fill.ts';
import { recordKnee } from './knee.ts';
import { currentAirKpaL } from './tank-air.ts';
import { AFTER_S, newTrace, traceAfter, traceBefore, type Trace } from './trace.ts';
import { noiseKpa, type WaterState } from './water-state.ts';

/**
 * Change of the warmth in the middle of a fill, as a share of that of air without wall and water,
 * which makes the fills read before worthless: their rates are 1 to 2 % off by it, half of what
 * fills that agree differ by.
 */
const MIN_WARMTH_CHANGE = 0.05;
/** How long a fill takes to its middle and on (common practice, no source). */
const FILL_S = 60;

/** A reading at rest, kPa. */
export function traceRestReading(state: WaterState, atMs: number, kpa: number): void {
  const { trace } = state;
  const warmth = state.air?.warmth ?? 0;
  if (!trace) {
    state.trace = newTrace(atMs, warmth);
    traceBefore(state.trace, atMs, kpa, warmth);
  } else if (trace.stopS === undefined) traceBefore(trace, atMs, kpa, warmth);
  else if (atMs - trace.originMs - trace.stopS * 1000 < AFTER_S * 1000) traceAfter(trace, atMs, kpa);
  else {
    finishTrace(state);
    state.trace = newTrace(atMs, warmth);
  }
}

/**
 * The trace is whole: everything is learnt from it, and the rest after it becomes the rest before
 * the next run.
 */
export function finishTrace(state: WaterState): void {
  const { trace } = state;
  if (!trace || trace.stopS === undefined) return;
  // A bin holds four readings or so.
  learnCooling(state.cooling, trace, { atmosphereKpa: state.atmosphereKpa, noiseKpa: noiseKpa(state) / 2 });
  const response = estimatedResponse(state.cooling);
  if (response) {
    if (Math.abs(warmthInFill(response) - warmthInFill(state.fillsResponse)) > MIN_WARMTH_CHANGE) {
      discardFills(state.delivery);
      state.fillsResponse = response;
    }
    Object.assign(state, response);
    state.coolingLearned = true;
  }
  // What two pumps lifted together is of neither.
  const fill = trace.multiplePumps ? undefined : measureFill(trace, state);
  if (fill) learnDelivery(state.delivery, fill, trace.amps);
  recordKnee(state.knee, trace, { lowKpa: trace.lowKpa ?? 1e9, noiseKpa: noiseKpa(state) });
  state.currentAirKpaL = currentAirKpaL(state);
  state.trace = nextTraceFrom(state, trace);
}

function warmthInFill({ coolingS, warmRatio }: AirResponse): number {
  return (warmRatio * coolingS) / (coolingS + FILL_S);
}

/** Where the next run follows at once, the rest between them is the rest before it. */
function nextTraceFrom(state: WaterState, trace: Trace): Trace {
  const { after } = trace;
  const next = newTrace(trace.originMs, state.air?.warmth ?? 0);
  const from = Math.max(0, after.s.length - 8);
  next.before.s = after.s.slice(from);
  next.before.kpa = after.kpa.slice(from);
  next.before.newestStartS = after.newestStartS;
  next.before.newestCount = after.newestCount;
  return next;
}
