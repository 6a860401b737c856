/** A drawing as plain data, in SVG's own terms (SVG 1.1, W3C): the pages and the packet put the same shapes into their own markup. */
export interface Shape {
  is: 'path' | 'rect' | 'circle' | 'text' | 'title';
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

export function path(d: string, kind: string): Shape {
  return { is: 'path', attrs: { d, class: kind } };
}

export function rect(
  box: { x: number; y: number; width: number; height: number; round?: number },
  kind: string,
): Shape {
  const { round, x, y, width, height } = box;
  return {
    is: 'rect',
    attrs: {
      x: tidy(x),
      y: tidy(y),
      width: tidy(width),
      height: tidy(height),
      ...(round !== undefined && { rx: round }),
      class: kind,
    },
  };
}

export function words(
  text: string,
  at: { x: number; y: number; anchor?: 'start' | 'middle' | 'end' },
  kind: string,
): Shape {
  const { x, y, anchor = 'start' } = at;
  return { is: 'text', attrs: { x: tidy(x), y: tidy(y), 'text-anchor': anchor, class: kind }, text };
}

/** Tenths of a unit: finer is seen by nobody and makes the file longer. */
export function tidy(value: number): number {
  return Math.round(value * 10) / 10;
}
