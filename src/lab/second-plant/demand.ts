/**
 * What is drawn at a moment: each local day's draws are made at its midnight, and their beginnings
 * and ends wait in order of time.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import { seeded } from '../model/random.ts';
import type { SecondPlan } from './plan.ts';
import { dayC, localTime } from './weather.ts';

interface Step {
  atMs: number;
  byLPerS: number;
}

export interface Demand {
  /** The next local midnight. */
  endsMs: number;
  steps: Step[];
  next: number;
  /** Of the open draws together, L/s at 300 kPa. */
  lPerS: number;
  meanC: number;
}

export function newDemand(): Demand {
  return { endsMs: Number.NEGATIVE_INFINITY, steps: [], next: 0, lPerS: 0, meanC: 0 };
}

export function advanceDemand(demand: Demand, plan: SecondPlan, tMs: number): void {
  if (tMs >= demand.endsMs) beginDay(demand, plan, localTime(tMs, plan.utcOffsetH).day);
  while (demand.next < demand.steps.length && demand.steps[demand.next]!.atMs <= tMs)
    demand.lPerS += demand.steps[demand.next++]!.byLPerS;
  // Sums of what was added and taken away again leave a dust of rounding.
  if (demand.lPerS < 1e-9) demand.lPerS = 0;
}

/** When the draws change next. */
export function nextDemandMs(demand: Demand): number {
  return demand.steps[demand.next]?.atMs ?? Number.POSITIVE_INFINITY;
}

function beginDay(demand: Demand, plan: SecondPlan, day: number): void {
  demand.meanC = dayC(plan.climate, plan.seed, day);
  const startMs = day * DAY_MS - plan.utcOffsetH * HOUR_MS;
  demand.endsMs = startMs + DAY_MS;
  const fields = { startMs, day, weekday: (((day + 4) % 7) + 7) % 7, meanC: demand.meanC };
  const draws = plan.habits.flatMap((habit, at) =>
    habit({ ...fields, climate: plan.climate, random: seeded(plan.seed * 31 + day * 17 + at) }),
  );
  const steps = draws.flatMap(({ fromMs, untilMs, lPerS }) => [
    { atMs: fromMs, byLPerS: lPerS },
    { atMs: untilMs, byLPerS: -lPerS },
  ]);
  demand.steps = [...demand.steps.slice(demand.next), ...steps].sort((a, b) => a.atMs - b.atMs);
  demand.next = 0;
}
