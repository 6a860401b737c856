/**
 * The straight line through a few points by least squares, with how unsure its slope is.
 * simple-statistics fits a line too, but without that error, and of pairs, which would have to be
 * made each time of two lists.
 */

export interface LinearFit {
  slope: number;
  /** Middle of the points: the line goes through it. */
  x: number;
  y: number;
  n: number;
  /** Standard error of the slope by the scatter about the line; NaN with two points. */
  slopeError: number;
}

/** Fits y over x for the points [from, to); undefined with fewer than two or all at one x. */
export function fitLine(
  x: readonly number[],
  y: readonly number[],
  from = 0,
  to = x.length,
): LinearFit | undefined {
  const n = to - from;
  if (n < 2) return undefined;
  let meanX = 0;
  let meanY = 0;
  for (let i = from; i < to; i++) {
    meanX += x[i]! / n;
    meanY += y[i]! / n;
  }
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let i = from; i < to; i++) {
    const dx = x[i]! - meanX;
    const dy = y[i]! - meanY;
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  if (xx <= 0) return undefined;
  const slope = xy / xx;
  const scatter = Math.max(0, yy - slope * xy);
  return { slope, x: meanX, y: meanY, n, slopeError: n > 2 ? Math.sqrt(scatter / (n - 2) / xx) : Number.NaN };
}

/** Value of the line at x. */
export function lineValueAt(fit: LinearFit, x: number): number {
  return fit.y + fit.slope * (x - fit.x);
}
