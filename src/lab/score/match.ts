/**
 * Which cycle that was said is which true run. A run must be found where three readings or more
 * show it, two show the rest on either side of it, and nothing was lost near it; what else is found
 * is neither asked for nor held against anybody.
 */
import type { CycleEvent } from '../../../shared/api/events.ts';
import type { TrueCycle } from '../plant/params.ts';
import type { Gap } from './node.ts';

export interface Match {
  truth: TrueCycle;
  reported?: CycleEvent;
  required: boolean;
}

export interface Matches {
  matches: Match[];
  /** Said, and no true run is there: also the second part of a run that was said as two. */
  unmatched: CycleEvent[];
}

export interface MatchRequest {
  truth: readonly TrueCycle[];
  reported: readonly CycleEvent[];
  gaps: readonly Gap[];
  /** Between readings of current; by exception the second in which a node looks. */
  everyMs: number;
  fromMs: number;
  untilMs: number;
}

const MIN_READINGS = 3;
const MIN_REST_READINGS = 2;
/** What the clamp shows must be more than its own noise for a run to be seen at all. */
const MIN_AMPS = 0.3;

export function matchCycles(request: MatchRequest): Matches {
  const pumps = new Set(request.truth.map(({ pump }) => pump));
  const matches: Match[] = [];
  const matched = new Set<CycleEvent>();
  for (const pump of [...pumps].sort((a, b) => a - b)) {
    const runs = request.truth.filter((run) => run.pump === pump);
    const reported = request.reported.filter((cycle) => cycle.pump === `p${pump + 1}`);
    matches.push(...matchPump(runs, reported, request, matched));
  }
  const extra = request.reported.filter(
    (cycle) => !matched.has(cycle) && !isNearGap(request, msOf(cycle.started), msOf(cycle.stopped)),
  );
  return { matches, unmatched: extra };
}

function matchPump(
  runs: readonly TrueCycle[],
  reported: readonly CycleEvent[],
  request: MatchRequest,
  matched: Set<CycleEvent>,
): Match[] {
  const spans = reported.map((cycle) => ({
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
      if (matched.has(cycle) || untilMs <= startedMs - slackMs || sharedMs <= bestMs) continue;
      best = cycle;
      bestMs = sharedMs;
    }
    if (best) matched.add(best);
    return { truth, ...(best && { reported: best }), required: isRequired(runs, at, request) };
  });
}

function isRequired(runs: readonly TrueCycle[], at: number, request: MatchRequest): boolean {
  const { startedMs, stoppedMs, amps } = runs[at]!;
  if (amps !== undefined && amps < MIN_AMPS) return false;
  if (isNearGap(request, startedMs, stoppedMs)) return false;
  const { everyMs } = request;
  const restFromMs = runs[at - 1]?.stoppedMs ?? request.fromMs;
  const restUntilMs = runs[at + 1]?.startedMs ?? request.untilMs;
  return (
    readingsIn(startedMs, stoppedMs, everyMs) >= MIN_READINGS &&
    readingsIn(restFromMs, startedMs, everyMs) >= MIN_REST_READINGS &&
    readingsIn(stoppedMs, restUntilMs, everyMs) >= MIN_REST_READINGS
  );
}

/**
 * Readings between two moments. What is read at the very moment of a change may show either side of
 * it, so it doesn't count.
 */
function readingsIn(fromMs: number, untilMs: number, everyMs: number): number {
  return Math.ceil(untilMs / everyMs) - Math.floor(fromMs / everyMs) - 1;
}

/** A reading of rest before the run and after it may be what was lost. */
function isNearGap({ gaps, everyMs }: MatchRequest, fromMs: number, untilMs: number): boolean {
  const nearMs = 3 * everyMs;
  return gaps.some((span) => span.fromMs < untilMs + nearMs && span.untilMs > fromMs - nearMs);
}

/**
 * How many readings a start or stop is off: the contract puts it at the first reading that shows
 * it. One that falls on a reading may show in that one or in the next.
 */
export function readingsOff(reportedMs: number, trueMs: number, everyMs: number): number {
  const first = Math.ceil(trueMs / everyMs) * everyMs;
  const last = (Math.floor(trueMs / everyMs) + 1) * everyMs;
  return Math.max(0, first - reportedMs, reportedMs - last) / everyMs;
}

export function msOf(time: string): number {
  return Date.parse(time);
}
