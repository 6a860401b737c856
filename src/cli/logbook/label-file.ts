/**
 * Sheets of labels as files that print: a page of HTML with a sheet a page, or one SVG a sheet;
 * exact millimetres, nothing fetched.
 */
import { encode } from 'uqr';
import type { Label } from '../../../shared/api/labels.ts';
import { arialWidth } from '../../../shared/labels/arial-width.ts';
import { cutShapes, LABEL_ATTRS, labelShapes, roundMm } from '../../../shared/labels/draw.ts';
import { layOutLabel, type LabelTools } from '../../../shared/labels/layout.ts';
import { labelPositions, type Sheet } from '../../../shared/labels/sheets.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { attributes, element, html, type Markup } from '../../logbook/export/markup.ts';

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
  const places = labelPositions(sheet, labels.length, first);
  const pages = (places.at(-1)?.page ?? -1) + 1;
  return Array.from({ length: pages }, (_, page) => {
    const placed = labels.flatMap((label, at) => {
      const { page: on, x, y } = places[at]!;
      return on === page ? [labelAt(label, sheet, { x, y })] : [];
    });
    const [w, h] = [roundMm(sheet.page.w), roundMm(sheet.page.h)];
    return html`<svg
      xmlns="http://www.w3.org/2000/svg"
      width="${w}mm"
      height="${h}mm"
      viewBox="0 0 ${w} ${h}"
    >
      ${placed}${sheet.cutLines ? cutShapes(sheet).map(element) : undefined}
    </svg> `.markup;
  });
}

function labelAt(label: Label, sheet: Sheet, at: { x: number; y: number }): Markup {
  const { scale, ...drawing } = layOutLabel(label, nameText(label.well), sheet.label, TOOLS);
  const transform = `translate(${roundMm(at.x)} ${roundMm(at.y)})${scale === 1 ? '' : ` scale(${roundMm(scale)})`}`;
  return html`<g ${attributes({ ...LABEL_ATTRS, transform })}>${labelShapes(drawing).map(element)}</g>`;
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

export function labelPage(labels: readonly Label[], print: LabelPrint): string {
  const [w, h] = [roundMm(print.sheet.page.w), roundMm(print.sheet.page.h)];
  const style = `@page { size: ${w}mm ${h}mm; margin: 0 } body { margin: 0 } svg { display: block; break-after: page } svg:last-of-type { break-after: auto }`;
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <title>${print.title}</title>
        <style>
          ${style}
        </style>
      </head>
      <body>
        ${labelSvgs(labels, print).map((markup) => ({ markup }))}
      </body>
    </html> `.markup;
}
