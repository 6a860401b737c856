/**
 * Values over the years, drawn small: a dot for each, hollow where it is only known to lie under
 * it, and the lines to hold them against.
 */
import { trendShape, TREND_BOX, type ReferenceLine, type TrendPoint } from './trend-shape.ts';

const DOT = 4.5;

export function TrendChart(props: {
  title: string;
  /** The same in words, for whoever cannot see it. */
  description: string;
  points: readonly TrendPoint[];
  lines: readonly ReferenceLine[];
  fromZero?: boolean;
}) {
  const { title, description, points, lines, fromZero } = props;
  const shape = trendShape(points, lines, fromZero ?? false);
  if (!shape || points.length < 2) return null;
  const { width, height, left, right, bottom, top } = TREND_BOX;
  return (
    <figure class="trend">
      <figcaption>
        <span class="chart-title">{title}</span> {description}
      </figcaption>
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={`${title}: ${description}`}>
        <path class="trend-axis" d={`M${left} ${bottom}H${right}`} />
        {shape.years.map(({ x, word }) => (
          <g key={word}>
            <path class="trend-axis" d={`M${x} ${bottom}v6`} />
            <text x={x} y={bottom + 24} text-anchor="middle">
              {word}
            </text>
          </g>
        ))}
        {shape.lines.map(({ y, words }) => (
          <g key={words}>
            <path class="trend-limit" d={`M${left} ${y}H${right}`} />
            <text x={left} y={y < top + 22 ? y + 20 : y - 6}>
              {words}
            </text>
          </g>
        ))}
        <path class="trend-path" d={shape.path} />
        {shape.points.map(({ x, y, open }) => (
          <circle key={`${x} ${y}`} class={open ? 'trend-open' : 'trend-dot'} cx={x} cy={y} r={DOT} />
        ))}
      </svg>
    </figure>
  );
}
