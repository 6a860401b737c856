/** How wide text really is in the font that it will be printed in, by the browser's own measure. */
import { LABEL_FONT } from '../../shared/labels/draw.ts';
import type { MeasureWidth } from '../../shared/labels/wrap.ts';

/** Measured large, so that no rounding to pixels counts. */
const MEASURED_PX = 200;

let canvas: CanvasRenderingContext2D | null | undefined;

/** A browser that draws no canvas gets a width that is too large rather than too small. */
export const textWidth: MeasureWidth = (text, { size, bold }) => {
  canvas ??= document.createElement('canvas').getContext('2d');
  if (!canvas) return text.length * size * 0.62;
  canvas.font = `${bold ? 'bold ' : ''}${MEASURED_PX}px ${LABEL_FONT}`;
  return (canvas.measureText(text).width / MEASURED_PX) * size;
};
