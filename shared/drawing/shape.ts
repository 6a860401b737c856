/**
 * A drawing as plain data, in SVG's own terms (SVG 1.1, W3C): the pages and the packet put the same
 * shapes into their own markup.
 */
export interface Shape {
  element: 'path' | 'rect' | 'circle' | 'text' | 'title';
  attrs: Readonly<Record<string, string | number>>;
  text?: string;
}

export interface Drawing {
  width: number;
  height: number;
  /** What it shows, in one sentence, for who cannot see it. */
  label: string;
  shapes: readonly Shape[];
}

export function path(d: string, className: string): Shape {
  return { element: 'path', attrs: { d, class: className } };
}

export function rect(
  box: { x: number; y: number; width: number; height: number; round?: number },
  className: string,
): Shape {
  const { round, x, y, width, height } = box;
  return {
    element: 'rect',
    attrs: {
      x: roundToTenth(x),
      y: roundToTenth(y),
      width: roundToTenth(width),
      height: roundToTenth(height),
      ...(round !== undefined && { rx: round }),
      class: className,
    },
  };
}

export function textShape(
  text: string,
  at: { x: number; y: number; anchor?: 'start' | 'middle' | 'end' },
  className: string,
): Shape {
  const { x, y, anchor = 'start' } = at;
  return {
    element: 'text',
    attrs: { x: roundToTenth(x), y: roundToTenth(y), 'text-anchor': anchor, class: className },
    text,
  };
}

/** Tenths of a unit: finer is seen by nobody and makes the file longer. */
export function roundToTenth(value: number): number {
  return Math.round(value * 10) / 10;
}
