/** The sheets as they are printed: a page of exact size each, with the labels in their places. */
import type { Label } from '../../shared/api/labels.ts';
import { LabelDrawing } from './label-drawing.tsx';
import { placesOn, type Sheet } from './sheets.ts';

interface SheetsProps {
  labels: readonly Label[];
  sheet: Sheet;
  /** The first place that is free, from 1. */
  first: number;
}

export function LabelSheets({ labels, sheet, first }: SheetsProps) {
  const places = placesOn(sheet, labels.length, first);
  const pages = Array.from({ length: (places.at(-1)?.page ?? -1) + 1 }, (_, page) =>
    labels.flatMap((label, i) => (places[i]?.page === page ? [{ label, ...places[i] }] : [])),
  );
  return (
    <div class="label-sheets">
      {pages.map((placed, page) => (
        <figure
          key={page}
          class={`label-sheet on-${sheet.paper}`}
          role="img"
          aria-label={`Sheet ${page + 1} of ${pages.length}: ${placed.map(({ label }) => label.title).join(', ')}`}
        >
          <svg viewBox={`0 0 ${sheet.page.w} ${sheet.page.h}`}>
            {placed.map(({ label, x, y }) => (
              <g key={label.id} transform={`translate(${x} ${y})`}>
                <LabelDrawing label={label} size={sheet.label} />
              </g>
            ))}
            {sheet.cut && <CutLines sheet={sheet} />}
          </svg>
        </figure>
      ))}
    </div>
  );
}

/** Lines to cut along, and a bar by which a ruler tells whether the printer kept the size. */
function CutLines({ sheet }: { sheet: Sheet }) {
  const { left, top, columns, rows, label, page } = sheet;
  const right = left + columns * label.w;
  const bottom = top + rows * label.h;
  const down = Array.from({ length: columns + 1 }, (_, i) => `M${left + i * label.w} ${top}V${bottom}`);
  const across = Array.from({ length: rows + 1 }, (_, i) => `M${left} ${top + i * label.h}H${right}`);
  return (
    <>
      <path
        class="cut"
        d={[...down, ...across].join('')}
        fill="none"
        stroke="#777"
        stroke-width={0.2}
        stroke-dasharray="2 1.5"
      />
      <path d={`M${left} ${page.h - 5.5}v2m0 -1h50m0 -1v2`} fill="none" stroke="#000" stroke-width={0.3} />
      <text x={left + 53} y={page.h - 3.6} font-size={2.6} font-family="Arial, sans-serif" fill="#000">
        This bar is 50 mm long if the printer kept the size.
      </text>
    </>
  );
}
