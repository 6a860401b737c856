/** How wide text really is in the font that it will be printed in, by the browser's own measure. */
import type { WidthOf } from './wrap.ts';

/** Fonts of one set of widths, so that a sheet breaks its rows alike on every machine that has one of them. */
export const LABEL_FONT = "Arial, 'Liberation Sans', Helvetica, sans-serif";
/** Measured large, so that no rounding to pixels counts. */
const MEASURED_PX = 200;

let canvas: CanvasRenderingContext2D | null | undefined;

/** A browser that draws no canvas gets a width that is too large rather than too small. */
export const textWidth: WidthOf = (text, { size, bold }) => {
  canvas ??= document.createElement('canvas').getContext('2d');
  if (!canvas) return text.length * size * 0.62;
  canvas.font = `${bold ? 'bold ' : ''}${MEASURED_PX}px ${LABEL_FONT}`;
  return (canvas.measureText(text).width / MEASURED_PX) * size;
};
