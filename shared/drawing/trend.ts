/**
 * A trend as a line: one value a step of even width, with holes where nothing is known. Its
 * sentence says what the line shows.
 */
import { path, roundToTenth, textShape, type Drawing, type Shape } from './shape.ts';
import { texts } from './texts.ts';

export interface Trend {
  title: string;
  /** One a step, oldest first; null where nothing is known. In people's units. */
  values: readonly (number | null)[];
  unit: string;
  /** Decimals of what is printed. */
  decimals: number;
  /** Words for the two ends. */
  from: string;
  to: string;
  /** Amounts stand on nought; levels have their own range. */
  fromZero: boolean;
}

const BOX = { width: 340, height: 150, left: 8, right: 8, top: 30, bottom: 24 };
/** More steps than this nobody can see apart at this width. */
const MAX_STEPS = 320;
const MIN_SPAN_RATIO = 0.05;

/** Undefined where fewer than two values are known: a single day is no trend. */
export function drawTrend(trend: Trend): Drawing | undefined {
  const values = downsample(trend.values);
  const known = values.filter((value) => value !== null);
  if (known.length < 2) return undefined;
  const [low, high] = rangeOf(known, trend.fromZero);
  const format = (value: number): string => value.toFixed(trend.decimals).replace(/\.0+$/, '');
  const x = (i: number): number =>
    BOX.left + (i / Math.max(1, values.length - 1)) * (BOX.width - BOX.left - BOX.right);
  const y = (value: number): number =>
    BOX.height - BOX.bottom - ((value - low) / (high - low)) * (BOX.height - BOX.top - BOX.bottom);
  const min = format(Math.min(...known));
  const max = format(Math.max(...known));
  const rangeText = texts().trendRange(min, max, trend.unit);
  return {
    width: BOX.width,
    height: BOX.height,
    label: texts().trendSummary({ ...trend, range: rangeText, last: format(known.at(-1) ?? 0) }),
    shapes: [
      textShape(trend.title, { x: BOX.left, y: 14 }, 'label'),
      textShape(rangeText, { x: BOX.width - BOX.right, y: 14, anchor: 'end' }, 'small'),
      path(`M${BOX.left} ${BOX.height - BOX.bottom}H${BOX.width - BOX.right}`, 'axis'),
      ...lineShapes(values, x, y),
      textShape(trend.from, { x: BOX.left, y: BOX.height - 8 }, 'small'),
      textShape(trend.to, { x: BOX.width - BOX.right, y: BOX.height - 8, anchor: 'end' }, 'small'),
    ],
  };
}

/**
 * Means of neighbours, so that there are few enough; a step of which nothing is known stays a hole.
 */
function downsample(values: readonly (number | null)[]): (number | null)[] {
  const size = Math.ceil(values.length / MAX_STEPS);
  if (size <= 1) return [...values];
  return Array.from({ length: Math.ceil(values.length / size) }, (_, i) => {
    const known = values.slice(i * size, (i + 1) * size).filter((value) => value !== null);
    return known.length === 0 ? null : known.reduce((a, b) => a + b, 0) / known.length;
  });
}

/** A flat line is drawn flat and not blown up to noise. */
function rangeOf(known: readonly number[], fromZero: boolean): [number, number] {
  const high = Math.max(...known);
  const low = fromZero ? 0 : Math.min(...known);
  const minSpan = Math.max(Math.abs(high) * MIN_SPAN_RATIO, 1e-6);
  return high - low >= minSpan ? [low, high] : [low - (fromZero ? 0 : minSpan / 2), low + minSpan];
}

function lineShapes(
  values: readonly (number | null)[],
  x: (i: number) => number,
  y: (value: number) => number,
): Shape[] {
  let d = '';
  let open = false;
  const dots: Shape[] = [];
  values.forEach((value, i) => {
    if (value === null) {
      open = false;
      return;
    }
    const place = `${roundToTenth(x(i))} ${roundToTenth(y(value))}`;
    d += `${open ? 'L' : 'M'}${place}`;
    const alone = !open && (values[i + 1] ?? null) === null;
    if (alone)
      dots.push({
        element: 'circle',
        attrs: { cx: roundToTenth(x(i)), cy: roundToTenth(y(value)), r: 1.8, class: 'dot' },
      });
    open = true;
  });
  return [path(d, 'trend'), ...dots];
}
