/** The maker's curve, head over flow, with the point at which the pump works today. */
import type { DutyPoint } from '../../../shared/api/figures/figures.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { CurvePoint } from '../../../shared/quantity/parse-curve-point.ts';
import { formatDepth, formatFlow } from '../../../shared/text/en/format.ts';
import { texts } from './texts.ts';

const WIDTH = 360;
const HEIGHT = 220;
const LEFT = 52;
const BOTTOM = 30;
const EDGE = 10;

export interface CurveChartProps {
  curve: readonly CurvePoint[];
  duty: DutyPoint | undefined;
  units: UnitSystem;
}

export function CurveChart({ curve, duty, units }: CurveChartProps) {
  const point = duty?.headM === undefined ? undefined : { flowLPerS: duty.flowLPerS, headM: duty.headM };
  const all = point ? [...curve, point] : curve;
  const maxFlow = Math.max(...all.map(({ flowLPerS }) => flowLPerS), 1e-9) * 1.1;
  const maxHead = Math.max(...all.map(({ headM }) => headM), 1e-9) * 1.1;
  const x = (flow: number): number => LEFT + (flow / maxFlow) * (WIDTH - LEFT - EDGE);
  const y = (head: number): number => HEIGHT - BOTTOM - (head / maxHead) * (HEIGHT - BOTTOM - EDGE);
  const path = curve.map(({ flowLPerS, headM }) => `${x(flowLPerS)} ${y(headM)}`).join('L');
  const topHead = Math.max(...curve.map(({ headM }) => headM));
  const topFlow = Math.max(...curve.map(({ flowLPerS }) => flowLPerS));
  return (
    <svg class="curve-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={texts().curve}>
      <path class="curve-axis" d={`M${LEFT} ${EDGE}V${HEIGHT - BOTTOM}H${WIDTH - EDGE}`} />
      <path class="curve-line" d={`M${path}`} />
      <text x={LEFT - 6} y={y(topHead) + 4} text-anchor="end">
        {formatDepth(topHead, units)}
      </text>
      <text x={LEFT - 6} y={HEIGHT - BOTTOM} text-anchor="end">
        0
      </text>
      <text x={x(topFlow)} y={HEIGHT - 10} text-anchor="end">
        {formatFlow(topFlow, units)}
      </text>
      {point && <circle class="curve-point" cx={x(point.flowLPerS)} cy={y(point.headM)} r={5} />}
    </svg>
  );
}
