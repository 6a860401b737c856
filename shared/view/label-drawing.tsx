/**
 * Labels and their sheets as SVG, in mm. Black on white on paper and on screen: it is a picture of
 * what is printed.
 */
import type { Label } from '../api/labels.ts';
import { cutShapes, LABEL_ATTRS, labelShapes, roundMm } from '../labels/draw.ts';
import { layOutLabel, type LabelTools } from '../labels/layout.ts';
import { labelPositions, type Sheet, type Size } from '../labels/sheets.ts';
import { nameText } from '../text/en/names.ts';
import { SvgShapes } from './drawing.tsx';

interface LabelDrawingProps {
  label: Label;
  size: Size;
  tools: LabelTools;
  /** Its top left corner, where it is not the drawing's own. */
  at?: { x: number; y: number };
}

export function LabelDrawing({ label, size, tools, at }: LabelDrawingProps) {
  const { scale, ...drawing } = layOutLabel(label, nameText(label.well), size, tools);
  const transform = [
    ...(at ? [`translate(${roundMm(at.x)} ${roundMm(at.y)})`] : []),
    ...(scale === 1 ? [] : [`scale(${roundMm(scale)})`]),
  ].join(' ');
  return (
    <g {...LABEL_ATTRS} transform={transform === '' ? undefined : transform}>
      <SvgShapes shapes={labelShapes(drawing)} />
    </g>
  );
}

export interface LabelPage {
  sheet: Sheet;
  labels: { label: Label; at: { x: number; y: number } }[];
}

/** Each page with what is on it. `first`: the first place that is free, from 1. */
export function labelPages(labels: readonly Label[], sheet: Sheet, first: number): LabelPage[] {
  const places = labelPositions(sheet, labels.length, first);
  return Array.from({ length: (places.at(-1)?.page ?? -1) + 1 }, (_, page) => {
    const placed = labels.flatMap((label, i) => {
      const place = places[i];
      return place?.page === page ? [{ label, at: { x: place.x, y: place.y } }] : [];
    });
    return { sheet, labels: placed };
  });
}

/** A page as one drawing. `file`: whole by itself, in its real size. */
export function LabelPageDrawing(props: { page: LabelPage; tools: LabelTools; file?: boolean }) {
  const { sheet, labels } = props.page;
  const [w, h] = [roundMm(sheet.page.w), roundMm(sheet.page.h)];
  const size = props.file && { xmlns: 'http://www.w3.org/2000/svg', width: `${w}mm`, height: `${h}mm` };
  return (
    <svg {...size} viewBox={`0 0 ${w} ${h}`}>
      {labels.map(({ label, at }) => (
        <LabelDrawing key={label.id} label={label} size={sheet.label} tools={props.tools} at={at} />
      ))}
      {sheet.cutLines && <SvgShapes shapes={cutShapes(sheet)} />}
    </svg>
  );
}
