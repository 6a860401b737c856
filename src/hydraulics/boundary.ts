/**
 * When a run truly began and ended, between two readings. With a reading each 5 s a run of a minute is known to 7 % only; but the
 * pressure turns at the very instant. At the start the lines of rest and run cross there; at the end the reading after the stop
 * falls short of the run's line by what the pump no longer delivered. Both are rough by the transducer's noise, so each is weighed
 * against 'anywhere between the two readings alike'.
 */
import { roomsOf, type AirOf } from './fill.ts';
import { lineThrough, onLine } from './line.ts';
import type { Trace } from './trace.ts';

export interface Steps {
  /** Time between the last reading at rest and the first of the run, s; likewise at the end. Absent where readings are not steady. */
  startStepS?: number;
  stopStepS?: number;
  /** Room of the air at the reading after the stop. */
  stopRoom?: number;
  /** Noise of one reading, as room. */
  roomNoise: number;
  /** Rate of delivery, 1/kPa/s. */
  rate: number;
}

const NEAR_S = 45;
const EDGE_S = 1;
const RUN_SHARE = 0.45;
const SHORTEST_STEP_S = 1.5;
const LONGEST_STEP_S = 15;

/** Seconds to add to the run as the readings have it; negative where it was shorter. */
export function runLongerByS(trace: Trace, air: AirOf, steps: Steps): number {
  const rooms = roomsOf(trace, air);
  return earlierByS(trace, rooms, steps) - soonerEndedByS(trace, rooms, steps);
}

type Rooms = ReturnType<typeof roomsOf>;

function usable(stepS: number | undefined): stepS is number {
  return stepS !== undefined && stepS >= SHORTEST_STEP_S && stepS <= LONGEST_STEP_S;
}

/** How much earlier than half a step before its first reading the run began. */
function earlierByS(trace: Trace, rooms: Rooms, steps: Steps): number {
  const { startStepS, rate, roomNoise } = steps;
  const { startS, stopS, before, run } = trace;
  if (!usable(startStepS) || startS === undefined || stopS === undefined) return 0;
  const from = before.s.findIndex((s) => s > startS - NEAR_S);
  const rest = from < 0 ? undefined : lineThrough(before.s, rooms.before, from);
  const until = startS + Math.max(20, RUN_SHARE * (stopS - startS));
  const head = run.s.findIndex((s) => s >= startS + EDGE_S);
  const to = run.s.filter((s) => s <= until).length;
  const rising = head < 0 ? undefined : lineThrough(run.s, rooms.run, head, to);
  if (!rest || !rising || rest.n < 3 || rising.n < 3) return 0;
  const crossS = (onLine(rest, startS) - onLine(rising, startS)) / (rest.slope - rising.slope);
  const errorS = (roomNoise * Math.sqrt(4 / rest.n + 4 / rising.n)) / rate;
  return weigh(crossS, errorS, startStepS);
}

/** How much sooner than half a step before the first reading after it the run ended. */
function soonerEndedByS(trace: Trace, rooms: Rooms, steps: Steps): number {
  const { stopStepS, stopRoom, rate, roomNoise } = steps;
  const { startS, stopS, run } = trace;
  if (!usable(stopStepS) || stopRoom === undefined || startS === undefined || stopS === undefined) return 0;
  const from = run.s.findIndex((s) => s >= stopS - Math.max(20, RUN_SHARE * (stopS - startS)));
  const rising = from < 0 ? undefined : lineThrough(run.s, rooms.run, from);
  if (!rising || rising.n < 3) return 0;
  const shortS = (stopRoom - onLine(rising, stopS)) / rate;
  return weigh(shortS, (roomNoise * Math.sqrt(1 + 4 / rising.n)) / rate, stopStepS);
}

/** Best guess of a time within a step, less half the step. */
function weigh(seenS: number, errorS: number, stepS: number): number {
  const alike = 12 / stepS ** 2;
  const seen = 1 / errorS ** 2;
  const within = Math.min(1.5 * stepS, Math.max(-0.5 * stepS, seenS)) - stepS / 2;
  return Math.min(stepS / 2, Math.max(-stepS / 2, (within * seen) / (seen + alike)));
}
