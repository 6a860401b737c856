/** The sheets as they are printed: a page of exact size each, with the labels in their places. */
import type { Label } from '../../shared/api/labels.ts';
import type { Sheet } from '../../shared/labels/sheets.ts';
import { labelPages, LabelPageDrawing } from '../../shared/view/label-drawing.tsx';
import { LABEL_TOOLS } from './browser-label-tools.ts';
import { texts } from '../texts.ts';

interface SheetsProps {
  labels: readonly Label[];
  sheet: Sheet;
  /** The first place that is free, from 1. */
  first: number;
}

export function LabelSheets({ labels, sheet, first }: SheetsProps) {
  const pages = labelPages(labels, sheet, first);
  return (
    <div class="label-sheets">
      {pages.map((page, at) => (
        <figure
          key={at}
          class={`label-sheet on-${sheet.paper}`}
          role="img"
          aria-label={texts().sheetOf(
            at + 1,
            pages.length,
            page.labels.map(({ label }) => label.title).join(', '),
          )}
        >
          <LabelPageDrawing page={page} tools={LABEL_TOOLS} />
        </figure>
      ))}
    </div>
  );
}
