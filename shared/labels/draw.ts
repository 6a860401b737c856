/**
 * Labels and their sheets as shapes in mm, which pages and files put into their own markup. Black
 * on white: it is a picture of what is printed.
 */
import { path, type Shape } from '../drawing/shape.ts';
import type { LabelLayout } from './layout.ts';
import type { Sheet } from './sheets.ts';
import { texts } from './texts.ts';

/**
 * Fonts of one set of widths, so that a sheet breaks its rows alike on every machine that has one
 * of them.
 */
export const LABEL_FONT = "Arial, 'Liberation Sans', Helvetica, sans-serif";

/** What stands on all of a label. */
export const LABEL_ATTRS = {
  'font-family': LABEL_FONT,
  'text-rendering': 'geometricPrecision',
  fill: '#000',
} as const;

/** In mm from the label's own top left corner. */
export function labelShapes({ texts, rules, qr }: Omit<LabelLayout, 'leftOff'>): Shape[] {
  return [
    ...texts.map(({ x, y, size, bold, text, alignEnd }): Shape => ({
      element: 'text',
      attrs: {
        x: roundMm(x),
        y: roundMm(y),
        'font-size': size,
        ...(bold && { 'font-weight': 700 }),
        ...(alignEnd && { 'text-anchor': 'end' }),
      },
      text,
    })),
    ...rules.map(({ x, y, w, thick }): Shape => ({
      element: 'path',
      attrs: { d: `M${roundMm(x)} ${roundMm(y)}h${roundMm(w)}v${thick}h${-roundMm(w)}z` },
    })),
    ...(qr
      ? [
          {
            ...path(qr.path, 'label-code'),
            attrs: {
              ...path(qr.path, 'label-code').attrs,
              transform: `translate(${roundMm(qr.x)} ${roundMm(qr.y)}) scale(${roundMm(qr.moduleMm)})`,
              'shape-rendering': 'crispEdges',
            },
          },
        ]
      : []),
  ];
}

/** To the ten-thousandth of a mm: 8-1/2 in are 215.9 mm, and not a rounding error more. */
export function roundMm(mm: number): number {
  return Math.round(mm * 1e4) / 1e4;
}

/** Lines to cut along, and a bar by which a ruler tells whether the printer kept the size. */
export function cutShapes({ left, top, columns, rows, label, page }: Sheet): Shape[] {
  const right = roundMm(left + columns * label.w);
  const bottom = roundMm(top + rows * label.h);
  const down = Array.from(
    { length: columns + 1 },
    (_, i) => `M${roundMm(left + i * label.w)} ${top}V${bottom}`,
  );
  const across = Array.from(
    { length: rows + 1 },
    (_, i) => `M${left} ${roundMm(top + i * label.h)}H${right}`,
  );
  return [
    {
      element: 'path',
      attrs: {
        class: 'cut',
        d: [...down, ...across].join(''),
        fill: 'none',
        stroke: '#777',
        'stroke-width': 0.2,
        'stroke-dasharray': '2 1.5',
      },
    },
    {
      element: 'path',
      attrs: {
        d: `M${left} ${roundMm(page.h - 5.5)}v2m0 -1h50m0 -1v2`,
        fill: 'none',
        stroke: '#000',
        'stroke-width': 0.3,
      },
    },
    {
      element: 'text',
      attrs: {
        x: left + 53,
        y: roundMm(page.h - 3.6),
        'font-size': 2.6,
        'font-family': LABEL_FONT,
        fill: '#000',
      },
      text: texts().scaleBar,
    },
  ];
}
