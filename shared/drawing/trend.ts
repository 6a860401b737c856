/** A trend as a line: one value a step of even width, with holes where nothing is known. Its sentence says what the line shows. */
import { path, tidy, words, type Drawing, type Shape } from './shape.ts';

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
const MOST_STEPS = 320;
const LEAST_SPAN_SHARE = 0.05;

/** Undefined where fewer than two values are known: a single day is no trend. */
export function drawTrend(trend: Trend): Drawing | undefined {
  const values = thinned(trend.values);
  const known = values.filter((value) => value !== null);
  if (known.length < 2) return undefined;
  const [low, high] = rangeOf(known, trend.fromZero);
  const print = (value: number): string => value.toFixed(trend.decimals).replace(/\.0+$/, '');
  const x = (i: number): number =>
    BOX.left + (i / Math.max(1, values.length - 1)) * (BOX.width - BOX.left - BOX.right);
  const y = (value: number): number =>
    BOX.height - BOX.bottom - ((value - low) / (high - low)) * (BOX.height - BOX.top - BOX.bottom);
  const least = print(Math.min(...known));
  const most = print(Math.max(...known));
  const said = `${least} to ${most}${trend.unit === '' ? '' : ` ${trend.unit}`}`;
  return {
    width: BOX.width,
    height: BOX.height,
    label: `${trend.title}, ${trend.from} to ${trend.to}: ${said}, last ${print(known.at(-1) ?? 0)}.`,
    shapes: [
      words(trend.title, { x: BOX.left, y: 14 }, 'label'),
      words(said, { x: BOX.width - BOX.right, y: 14, anchor: 'end' }, 'small'),
      path(`M${BOX.left} ${BOX.height - BOX.bottom}H${BOX.width - BOX.right}`, 'axis'),
      ...lines(values, x, y),
      words(trend.from, { x: BOX.left, y: BOX.height - 8 }, 'small'),
      words(trend.to, { x: BOX.width - BOX.right, y: BOX.height - 8, anchor: 'end' }, 'small'),
    ],
  };
}

/** Means of neighbours, so that there are few enough; a step of which nothing is known stays a hole. */
function thinned(values: readonly (number | null)[]): (number | null)[] {
  const size = Math.ceil(values.length / MOST_STEPS);
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
  const least = Math.max(Math.abs(high) * LEAST_SPAN_SHARE, 1e-6);
  return high - low >= least ? [low, high] : [low - (fromZero ? 0 : least / 2), low + least];
}

function lines(
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
    const place = `${tidy(x(i))} ${tidy(y(value))}`;
    d += `${open ? 'L' : 'M'}${place}`;
    const alone = !open && (values[i + 1] ?? null) === null;
    if (alone)
      dots.push({ is: 'circle', attrs: { cx: tidy(x(i)), cy: tidy(y(value)), r: 1.8, class: 'dot' } });
    open = true;
  });
  return [path(d, 'trend'), ...dots];
}
