/** The small ribbon of a well's last days, for the list. */
import { formatDuration } from '../../shared/text/en/format.ts';
import type { RecentDay } from '../../shared/api/wells.ts';
import { ribbonShape, medianDay } from './ribbon-path.ts';
import type { RibbonBox } from './ribbon-path.ts';
import { texts } from '../texts.ts';

const BOX: RibbonBox = { width: 224, height: 48 };

export function RecentRibbon({
  recent,
  normal,
}: {
  recent: readonly RecentDay[];
  normal: number | undefined;
}) {
  const days = recent.map((day) => day.ranS ?? null);
  return (
    <figure class="recent">
      <RibbonDrawing days={days} normal={normal ?? medianDay(days)} box={BOX} label={recentWords(days)} />
      <figcaption>{texts().runTimeOfDays(recent.length)}</figcaption>
    </figure>
  );
}

function recentWords(days: readonly (number | null)[]): string {
  const known = days.filter((day) => day !== null);
  const last = known.at(-1);
  if (last === undefined) return texts().noDays;
  const [min, max] = [Math.min(...known), Math.max(...known)];
  return texts().runTimeSpan(formatDuration(min), formatDuration(max), formatDuration(last));
}

export function RibbonDrawing(props: {
  days: readonly (number | null)[];
  normal: number;
  box: RibbonBox;
  label: string;
}) {
  const { days, normal, box, label } = props;
  const { layers, unknown } = ribbonShape(days, normal, box);
  return (
    <svg
      class="ribbon"
      viewBox={`0 0 ${box.width} ${box.height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={label}
    >
      <path class="unknown" d={unknown} />
      {layers.map(({ level, path }) => (
        <path key={level} class={`layer layer-${level}`} d={path} />
      ))}
    </svg>
  );
}
