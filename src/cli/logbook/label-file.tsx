/**
 * Sheets of labels as files that print: a page of HTML with a sheet a page, or one SVG a sheet;
 * exact millimetres, nothing fetched.
 */
import { renderToStaticMarkup } from 'preact-render-to-string';
import { encode } from 'uqr';
import type { Label } from '../../../shared/api/labels.ts';
import { arialWidth } from '../../../shared/labels/arial-width.ts';
import { roundMm } from '../../../shared/labels/draw.ts';
import { layOutLabel, type LabelTools } from '../../../shared/labels/layout.ts';
import type { Sheet } from '../../../shared/labels/sheets.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { labelPages, LabelPageDrawing } from '../../../shared/view/label-drawing.tsx';

const TOOLS: LabelTools = {
  widthOf: arialWidth,
  encode: (text) => encode(text, { ecc: 'M', border: 0 }),
};

export interface LabelPrint {
  sheet: Sheet;
  /** The first place that is free, from 1. */
  first: number;
  title: string;
}

/** An SVG a sheet, each whole by itself. */
export function labelSvgs(labels: readonly Label[], { sheet, first }: LabelPrint): string[] {
  return labelPages(labels, sheet, first).map((page) =>
    renderToStaticMarkup(<LabelPageDrawing page={page} tools={TOOLS} file />),
  );
}

/** Facts that have no room at this size, by the label's title. */
export function leftOffLabels(
  labels: readonly Label[],
  { sheet }: LabelPrint,
): [title: string, facts: string[]][] {
  return labels.flatMap((label): [string, string[]][] => {
    const { omitted } = layOutLabel(label, nameText(label.well), sheet.label, TOOLS);
    return omitted.length === 0 ? [] : [[label.title, omitted]];
  });
}

export function labelPage(labels: readonly Label[], { sheet, first, title }: LabelPrint): string {
  const [w, h] = [roundMm(sheet.page.w), roundMm(sheet.page.h)];
  const style =
    `@page { size: ${w}mm ${h}mm; margin: 0 } body { margin: 0 } ` +
    'svg { display: block; break-after: page } svg:last-of-type { break-after: auto }';
  const page = renderToStaticMarkup(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <title>{title}</title>
        <style>{style}</style>
      </head>
      <body>
        {labelPages(labels, sheet, first).map((one, at) => (
          <LabelPageDrawing key={at} page={one} tools={TOOLS} file />
        ))}
      </body>
    </html>,
  );
  return `<!doctype html>${page}`;
}
