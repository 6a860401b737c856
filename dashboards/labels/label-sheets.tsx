/** The sheets as they are printed: a page of exact size each, with the labels in their places. */
import type { Label } from '../../shared/api/labels.ts';
import { cutShapes } from '../../shared/labels/draw.ts';
import { LabelDrawing } from './label-drawing.tsx';
import { labelPositions, type Sheet } from '../../shared/labels/sheets.ts';
import { SvgShapes } from '../charts/drawing.tsx';

interface SheetsProps {
  labels: readonly Label[];
  sheet: Sheet;
  /** The first place that is free, from 1. */
  first: number;
}

export function LabelSheets({ labels, sheet, first }: SheetsProps) {
  const places = labelPositions(sheet, labels.length, first);
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
            {sheet.cutLines && <SvgShapes shapes={cutShapes(sheet)} />}
          </svg>
        </figure>
      ))}
    </div>
  );
}
