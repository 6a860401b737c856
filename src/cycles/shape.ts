/**
 * The shape of a run for laying one over another: amps and pressure in even steps from the start. It begins at 1 s a step and
 * doubles the step whenever 40 are full, so a run of any length takes the same room.
 */
export interface ShapeSums {
  everyS: number;
  ampsSum: number[];
  ampsN: number[];
  kpaSum: number[];
  kpaN: number[];
}

export interface Shape {
  everyS: number;
  amps: (number | null)[];
  kpa: (number | null)[];
}

const MOST_STEPS = 40;

export function newShape(): ShapeSums {
  return { everyS: 1, ampsSum: [], ampsN: [], kpaSum: [], kpaN: [] };
}

function halve(list: number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < list.length; i += 2) out.push(list[i]! + (list[i + 1] ?? 0));
  return out;
}

function addTo(sums: number[], counts: number[], at: number, value: number): void {
  while (sums.length <= at) {
    sums.push(0);
    counts.push(0);
  }
  sums[at]! += value;
  counts[at]! += 1;
}

function widen(shape: ShapeSums): void {
  shape.everyS *= 2;
  shape.ampsSum = halve(shape.ampsSum);
  shape.ampsN = halve(shape.ampsN);
  shape.kpaSum = halve(shape.kpaSum);
  shape.kpaN = halve(shape.kpaN);
}

/** Adds one reading, `afterMs` after the start of the run. */
export function shapeReading(shape: ShapeSums, what: 'amps' | 'kpa', afterMs: number, value: number): void {
  if (afterMs < 0) return;
  let at = Math.floor(afterMs / 1000 / shape.everyS);
  while (at >= MOST_STEPS) {
    widen(shape);
    at = Math.floor(afterMs / 1000 / shape.everyS);
  }
  if (what === 'amps') addTo(shape.ampsSum, shape.ampsN, at, value);
  else addTo(shape.kpaSum, shape.kpaN, at, value);
}

/**
 * The shape of the whole run. Steps are made as wide as the sampling, so that readings 5 s apart leave no holes; by exception (`holds`)
 * a value stands until the next one.
 */
export function finishShape(shape: ShapeSums, sampling: { periodS: number; holds: boolean }): Shape {
  if (!sampling.holds) while (shape.everyS < sampling.periodS) widen(shape);
  const steps = Math.max(shape.ampsN.length, shape.kpaN.length);
  const mean = (sums: number[], counts: number[], at: number): number | null =>
    (counts[at] ?? 0) > 0 ? Math.round((sums[at]! / counts[at]!) * 100) / 100 : null;
  const out: Shape = { everyS: shape.everyS, amps: [], kpa: [] };
  for (let at = 0; at < steps; at++) {
    out.amps.push(mean(shape.ampsSum, shape.ampsN, at));
    out.kpa.push(mean(shape.kpaSum, shape.kpaN, at));
  }
  return sampling.holds ? { ...out, amps: hold(out.amps), kpa: hold(out.kpa) } : out;
}

function hold(values: (number | null)[]): (number | null)[] {
  let last: number | null = null;
  return values.map((value) => (last = value ?? last));
}
