/**
 * The geometry of a ribbon of levels: a band round a centre line, as thick as the day's run time,
 * in nested layers. The innermost layer is the usual day; each further one says how far beyond it
 * the day went. Days of which nothing is known break the ribbon.
 */

/** Layers end at these multiples of the usual day; the last goes to the day's own value. */
const LAYER_ENDS = [1, 1.5, 2.5, Infinity] as const;
/** The band is drawn to this multiple at least, so that an ordinary year looks calm. */
const MIN_SCALE = 1.6;
/** A day is never thinner than this share of the half height: a day without a run is a thread. */
const MIN_THICKNESS = 0.03;

export interface RibbonShape {
  /** Paths from the outermost layer to the innermost, to be painted in this order. */
  layers: { level: number; path: string }[];
  /** Straight pieces of the centre line where nothing is known. */
  unknown: string;
}

export interface RibbonBox {
  width: number;
  height: number;
}

/**
 * `days`: run time of each day, null where not known. `usual`: the usual day's. Both in the same
 * unit.
 */
export function ribbonShape(days: readonly (number | null)[], normal: number, box: RibbonBox): RibbonShape {
  const known = days.filter((day) => day !== null);
  const top = Math.max(normal * MIN_SCALE, ...known, Number.MIN_VALUE);
  const half = box.height / 2;
  const step = box.width / Math.max(1, days.length);
  const thick = (value: number): number => half * Math.max(MIN_THICKNESS, value / top);
  const runs = daySegments(days);
  const layers = LAYER_ENDS.map((end, level) => ({
    level,
    path: runs
      .filter(
        (run) => level === 0 || run.values.some((value) => value > normal * (LAYER_ENDS[level - 1] ?? 0)),
      )
      .map((run) => bandPath(run, (value) => thick(Math.min(value, normal * end)), step, half))
      .join(''),
  }));
  return {
    layers: layers.filter(({ path }) => path !== '').reverse(),
    unknown: gaps(days)
      .map(([from, to]) => `M${num(from * step)} ${num(half)}H${num(to * step)}`)
      .join(''),
  };
}

interface Run {
  from: number;
  values: number[];
}

function daySegments(days: readonly (number | null)[]): Run[] {
  const runs: Run[] = [];
  days.forEach((day, i) => {
    const last = runs.at(-1);
    if (day === null) return;
    if (last && last.from + last.values.length === i) last.values.push(day);
    else runs.push({ from: i, values: [day] });
  });
  return runs;
}

function gaps(days: readonly (number | null)[]): [number, number][] {
  const found: [number, number][] = [];
  days.forEach((day, i) => {
    const last = found.at(-1);
    if (day !== null) return;
    if (last?.[1] === i) last[1] = i + 1;
    else found.push([i, i + 1]);
  });
  return found;
}

/** Along the upper edge and back along the lower one; the ends are blunt, a day wide. */
function bandPath(
  { from, values }: Run,
  thick: (value: number) => number,
  step: number,
  half: number,
): string {
  const edge = [values[0]!, ...values, values.at(-1)!].map((value, i) => {
    const x =
      i === 0 ? from * step : i > values.length ? (from + values.length) * step : (from + i - 0.5) * step;
    return { x, y: thick(value) };
  });
  const upper = smooth(edge.map(({ x, y }) => [x, half - y]));
  const lower = smooth(edge.toReversed().map(({ x, y }) => [x, half + y]));
  return `M${upper}L${lower}Z`;
}

/** Curves with level tangents at every day: they never overshoot what was measured. */
function smooth(points: readonly (readonly [number, number])[]): string {
  return points
    .map(([x, y], i) => {
      const before = points[i - 1];
      if (!before) return `${num(x)} ${num(y)}`;
      const middle = num((before[0] + x) / 2);
      return `C${middle} ${num(before[1])} ${middle} ${num(y)} ${num(x)} ${num(y)}`;
    })
    .join('');
}

function num(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/**
 * The middle of what is known, as the usual day where no baseline says it; 1 where nothing is
 * known.
 */
export function medianDay(days: readonly (number | null)[]): number {
  const sorted = days.filter((day) => day !== null && day > 0).toSorted((a, b) => (a ?? 0) - (b ?? 0));
  return sorted[sorted.length >> 1] ?? 1;
}
