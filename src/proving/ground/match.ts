/**
 * Which cycle that was said is which true run. A run must be found where three readings or more show it, two show the rest on either
 * side of it, and nothing was lost near it; what else is found is neither asked for nor held against anybody.
 */
import type { CycleEvent } from '../../../shared/api/events.ts';
import type { TrueCycle } from '../plant/params.ts';
import type { Unheard } from './node.ts';

export interface Match {
  truth: TrueCycle;
  said?: CycleEvent;
  asked: boolean;
}

export interface Matches {
  matches: Match[];
  /** Said, and no true run is there: also the second part of a run that was said as two. */
  extra: CycleEvent[];
}

export interface MatchRequest {
  truth: readonly TrueCycle[];
  said: readonly CycleEvent[];
  unheard: readonly Unheard[];
  /** Between readings of current; by exception the second in which a node looks. */
  everyMs: number;
  fromMs: number;
  untilMs: number;
}

const LEAST_READINGS = 3;
const REST_READINGS = 2;
/** What the clamp shows must be more than its own noise for a run to be seen at all. */
const LEAST_AMPS = 0.3;

export function matchCycles(request: MatchRequest): Matches {
  const pumps = new Set(request.truth.map(({ pump }) => pump));
  const matches: Match[] = [];
  const taken = new Set<CycleEvent>();
  for (const pump of [...pumps].sort((a, b) => a - b)) {
    const runs = request.truth.filter((run) => run.pump === pump);
    const said = request.said.filter((cycle) => cycle.pump === `p${pump + 1}`);
    matches.push(...matchPump(runs, said, request, taken));
  }
  const extra = request.said.filter(
    (cycle) => !taken.has(cycle) && !nearUnheard(request, msOf(cycle.started), msOf(cycle.stopped)),
  );
  return { matches, extra };
}

function matchPump(
  runs: readonly TrueCycle[],
  said: readonly CycleEvent[],
  request: MatchRequest,
  taken: Set<CycleEvent>,
): Match[] {
  const spans = said.map((cycle) => ({
    cycle,
    fromMs: msOf(cycle.started),
    untilMs: msOf(cycle.stopped),
  }));
  const slackMs = 2 * request.everyMs;
  let first = 0;
  return runs.map((truth, at) => {
    const { startedMs, stoppedMs } = truth;
    while (first < spans.length && spans[first]!.untilMs <= startedMs - slackMs) first++;
    let best: CycleEvent | undefined;
    let bestMs = Number.NEGATIVE_INFINITY;
    for (let i = first; i < spans.length && spans[i]!.fromMs < stoppedMs + slackMs; i++) {
      const { cycle, fromMs, untilMs } = spans[i]!;
      const sharedMs = Math.min(untilMs, stoppedMs) - Math.max(fromMs, startedMs);
      if (taken.has(cycle) || untilMs <= startedMs - slackMs || sharedMs <= bestMs) continue;
      best = cycle;
      bestMs = sharedMs;
    }
    if (best) taken.add(best);
    return { truth, ...(best && { said: best }), asked: isAsked(runs, at, request) };
  });
}

function isAsked(runs: readonly TrueCycle[], at: number, request: MatchRequest): boolean {
  const { startedMs, stoppedMs, amps } = runs[at]!;
  if (amps !== undefined && amps < LEAST_AMPS) return false;
  if (nearUnheard(request, startedMs, stoppedMs)) return false;
  const { everyMs } = request;
  const restFromMs = runs[at - 1]?.stoppedMs ?? request.fromMs;
  const restUntilMs = runs[at + 1]?.startedMs ?? request.untilMs;
  return (
    readingsIn(startedMs, stoppedMs, everyMs) >= LEAST_READINGS &&
    readingsIn(restFromMs, startedMs, everyMs) >= REST_READINGS &&
    readingsIn(stoppedMs, restUntilMs, everyMs) >= REST_READINGS
  );
}

/** Readings between two moments. What is read at the very moment of a change may show either side of it, so it doesn't count. */
function readingsIn(fromMs: number, untilMs: number, everyMs: number): number {
  return Math.ceil(untilMs / everyMs) - Math.floor(fromMs / everyMs) - 1;
}

/** A reading of rest before the run and after it may be what was lost. */
function nearUnheard({ unheard, everyMs }: MatchRequest, fromMs: number, untilMs: number): boolean {
  const nearMs = 3 * everyMs;
  return unheard.some((span) => span.fromMs < untilMs + nearMs && span.untilMs > fromMs - nearMs);
}

/**
 * How many readings a start or stop is off: the contract puts it at the first reading that shows it. One that falls on a reading may show
 * in that one or in the next.
 */
export function readingsOff(toldMs: number, trueMs: number, everyMs: number): number {
  const first = Math.ceil(trueMs / everyMs) * everyMs;
  const last = (Math.floor(trueMs / everyMs) + 1) * everyMs;
  return Math.max(0, first - toldMs, toldMs - last) / everyMs;
}

export function msOf(time: string): number {
  return Date.parse(time);
}
