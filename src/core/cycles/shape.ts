/**
 * The shape of a run for laying one over another: amps and pressure in even steps from the start.
 * It begins at 1 s a step and doubles the step whenever 40 are full, so a run of any length takes
 * the same room.
 */
export interface ShapeSums {
  everyS: number;
  ampsSum: number[];
  ampsN: number[];
  kpaSum: number[];
  kpaN: number[];
  /** The last reading of each step: what holds on where a value stands until the next. */
  ampsLast: number[];
  kpaLast: number[];
}

export interface Shape {
  everyS: number;
  amps: (number | null)[];
  kpa: (number | null)[];
}

const MAX_STEPS = 40;
/** Stands in `ampsLast` and `kpaLast` for a step without a reading: JSON has no NaN. */
const NO_READING = -1e9;

export function newShape(): ShapeSums {
  return { everyS: 1, ampsSum: [], ampsN: [], kpaSum: [], kpaN: [], ampsLast: [], kpaLast: [] };
}

function sumPairs(list: number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < list.length; i += 2) out.push(list[i]! + (list[i + 1] ?? 0));
  return out;
}

function addTo(sums: number[], counts: number[], lasts: number[], at: number, value: number): void {
  while (sums.length <= at) {
    sums.push(0);
    counts.push(0);
    lasts.push(NO_READING);
  }
  lasts[at] = value;
  sums[at]! += value;
  counts[at]! += 1;
}

/** Of two steps that become one, the later reading; NEVER where a step had none. */
function laterOfPairs(list: number[], steps: number): number[] {
  return Array.from({ length: steps }, (_, at) => {
    const later = list[2 * at + 1] ?? NO_READING;
    return later === NO_READING ? (list[2 * at] ?? NO_READING) : later;
  });
}

function doubleStep(shape: ShapeSums): void {
  shape.everyS *= 2;
  shape.ampsSum = sumPairs(shape.ampsSum);
  shape.ampsN = sumPairs(shape.ampsN);
  shape.kpaSum = sumPairs(shape.kpaSum);
  shape.kpaN = sumPairs(shape.kpaN);
  shape.ampsLast = laterOfPairs(shape.ampsLast, shape.ampsN.length);
  shape.kpaLast = laterOfPairs(shape.kpaLast, shape.kpaN.length);
}

/** Adds one reading, `afterMs` after the start of the run. */
export function addToShape(shape: ShapeSums, what: 'amps' | 'kpa', afterMs: number, value: number): void {
  if (afterMs < 0) return;
  let at = Math.floor(afterMs / 1000 / shape.everyS);
  while (at >= MAX_STEPS) {
    doubleStep(shape);
    at = Math.floor(afterMs / 1000 / shape.everyS);
  }
  if (what === 'amps') addTo(shape.ampsSum, shape.ampsN, shape.ampsLast, at, value);
  else addTo(shape.kpaSum, shape.kpaN, shape.kpaLast, at, value);
}

/**
 * The shape of the whole run. Steps are made as wide as the sampling, so that readings 5 s apart
 * leave no holes; by exception (`holds`) a value stands until the next one.
 */
export function finishShape(
  shape: ShapeSums,
  sampling: { periodS: number; holds: boolean; ranS: number },
): Shape {
  if (!sampling.holds) while (shape.everyS < sampling.periodS) doubleStep(shape);
  // Readings after the stop came before it was believed; they are not of the run.
  const steps = Math.min(
    Math.ceil(sampling.ranS / shape.everyS),
    Math.max(shape.ampsN.length, shape.kpaN.length),
  );
  return {
    everyS: shape.everyS,
    amps: stepMeans(shape.ampsSum, shape.ampsN, steps, sampling.holds ? shape.ampsLast : undefined),
    kpa: stepMeans(shape.kpaSum, shape.kpaN, steps, sampling.holds ? shape.kpaLast : undefined),
  };
}

/** Means of the steps; where one has none, the reading that holds, or null. */
function stepMeans(
  sums: number[],
  counts: number[],
  steps: number,
  lasts: number[] | undefined,
): (number | null)[] {
  const out: (number | null)[] = [];
  let held: number | null = null;
  for (let at = 0; at < steps; at++) {
    const n = counts[at] ?? 0;
    out.push(n > 0 ? Math.round((sums[at]! / n) * 100) / 100 : held);
    if (lasts && n > 0) held = lasts[at]!;
  }
  return out;
}
