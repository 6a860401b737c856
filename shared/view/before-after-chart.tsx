/**
 * Before and after as two rows on one scale: a stroke for each run or day, a band for the spread, a
 * bar at the median. Told in words beside it.
 */
import type { ReportLineAnswer, ReportSide } from '../api/visits.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { MEASURE_TITLES, formatMeasure } from '../text/en/checks/before-after-report.ts';
import { texts } from './texts.ts';

const WIDTH = 320;
const ROW = 26;
const LEFT = 46;
const RIGHT = 8;

interface Scale {
  low: number;
  high: number;
  x: (value: number) => number;
}

export function BeforeAfterChart({ line, units }: { line: ReportLineAnswer; units: UnitSystem }) {
  const scale = scaleOf(line);
  if (!scale) return null;
  const { measure, before, after, normal } = line;
  return (
    <svg
      class="before-after"
      viewBox={`0 0 ${WIDTH} ${2 * ROW + 16}`}
      role="img"
      aria-label={texts().chartOf(MEASURE_TITLES[measure])}
    >
      <Row name="before" side={before} y={0} scale={scale} />
      <Row name="after" side={after} y={ROW} scale={scale} />
      {normal !== undefined && (
        <path class="before-after-normal" d={`M${scale.x(normal)} 2V${2 * ROW - 2}`} />
      )}
      <text x={LEFT} y={2 * ROW + 12}>
        {formatMeasure(measure, scale.low, units)}
      </text>
      <text x={WIDTH - RIGHT} y={2 * ROW + 12} text-anchor="end">
        {formatMeasure(measure, scale.high, units)}
      </text>
    </svg>
  );
}

function Row(props: { name: 'before' | 'after'; side: ReportSide; y: number; scale: Scale }) {
  const { name, side, y, scale } = props;
  const { median, spread = 0 } = side;
  const from = median === undefined ? 0 : scale.x(Math.max(scale.low, median - spread));
  const to = median === undefined ? 0 : scale.x(Math.min(scale.high, median + spread));
  return (
    <g class={`before-after-row-${name}`}>
      <text x={0} y={y + ROW / 2 + 4}>
        {texts().sideNames[name]}
      </text>
      <path class="before-after-axis" d={`M${LEFT} ${y + ROW - 3}H${WIDTH - RIGHT}`} />
      {median !== undefined && (
        <rect class="before-after-band" x={from} y={y + 4} width={Math.max(1, to - from)} height={ROW - 8} />
      )}
      <path
        class="before-after-runs"
        d={side.values.map((value) => `M${scale.x(value).toFixed(1)} ${y + 8}v${ROW - 14}`).join('')}
      />
      {median !== undefined && (
        <path class="before-after-median" d={`M${scale.x(median)} ${y + 3}v${ROW - 6}`} />
      )}
    </g>
  );
}

/** Wide enough for all of both sides; a single value stands in the middle. */
function scaleOf({ before, after, normal }: ReportLineAnswer): Scale | undefined {
  const values = [...before.values, ...after.values, ...(normal === undefined ? [] : [normal])];
  if (before.values.length + after.values.length === 0) return undefined;
  const [min, max] = [Math.min(...values), Math.max(...values)];
  const margin = Math.max((max - min) * 0.05, Math.abs(max) * 0.02, 0.01);
  const low = min >= 0 ? Math.max(0, min - margin) : min - margin;
  const high = max + margin;
  const x = (value: number): number => LEFT + ((value - low) / (high - low)) * (WIDTH - LEFT - RIGHT);
  return { low, high, x };
}
