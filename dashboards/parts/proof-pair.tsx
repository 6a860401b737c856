/** Before and after as two rows on one scale: a stroke for each run or day, a band for the spread, a bar at the median. Told in words beside it. */
import type { ProofLineAnswer, ProofSide } from '../../shared/api/visits.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { MEASURE_TITLES, sayMeasure } from '../../shared/words/proof.ts';

const WIDTH = 320;
const ROW = 26;
const LEFT = 46;
const RIGHT = 8;

interface Scale {
  low: number;
  high: number;
  x: (value: number) => number;
}

export function ProofPair({ line, units }: { line: ProofLineAnswer; units: UnitSystem }) {
  const scale = scaleOf(line);
  if (!scale) return null;
  const { measure, before, after, usual } = line;
  return (
    <svg
      class="proof-pair"
      viewBox={`0 0 ${WIDTH} ${2 * ROW + 16}`}
      role="img"
      aria-label={`${MEASURE_TITLES[measure]}: runs or days before and after on one scale`}
    >
      <Row name="before" side={before} y={0} scale={scale} />
      <Row name="after" side={after} y={ROW} scale={scale} />
      {usual !== undefined && <path class="proof-usual" d={`M${scale.x(usual)} 2V${2 * ROW - 2}`} />}
      <text x={LEFT} y={2 * ROW + 12}>
        {sayMeasure(measure, scale.low, units)}
      </text>
      <text x={WIDTH - RIGHT} y={2 * ROW + 12} text-anchor="end">
        {sayMeasure(measure, scale.high, units)}
      </text>
    </svg>
  );
}

function Row(props: { name: string; side: ProofSide; y: number; scale: Scale }) {
  const { name, side, y, scale } = props;
  const { median, spread = 0 } = side;
  const from = median === undefined ? 0 : scale.x(Math.max(scale.low, median - spread));
  const to = median === undefined ? 0 : scale.x(Math.min(scale.high, median + spread));
  return (
    <g class={`proof-row-${name}`}>
      <text x={0} y={y + ROW / 2 + 4}>
        {name}
      </text>
      <path class="proof-axis" d={`M${LEFT} ${y + ROW - 3}H${WIDTH - RIGHT}`} />
      {median !== undefined && (
        <rect class="proof-band" x={from} y={y + 4} width={Math.max(1, to - from)} height={ROW - 8} />
      )}
      <path
        class="proof-runs"
        d={side.values.map((value) => `M${scale.x(value).toFixed(1)} ${y + 8}v${ROW - 14}`).join('')}
      />
      {median !== undefined && <path class="proof-median" d={`M${scale.x(median)} ${y + 3}v${ROW - 6}`} />}
    </g>
  );
}

/** Wide enough for all of both sides; a single value stands in the middle. */
function scaleOf({ before, after, usual }: ProofLineAnswer): Scale | undefined {
  const values = [...before.values, ...after.values, ...(usual === undefined ? [] : [usual])];
  if (before.values.length + after.values.length === 0) return undefined;
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((most - least) * 0.05, Math.abs(most) * 0.02, 0.01);
  const low = least >= 0 ? Math.max(0, least - room) : least - room;
  const high = most + room;
  const x = (value: number): number => LEFT + ((value - low) / (high - low)) * (WIDTH - LEFT - RIGHT);
  return { low, high, x };
}
