/**
 * How deep a test goes: `npm test` plays the short form of the long ones, `npm run long`
 * (STILLWELL_LONG=1) all of it. Both check the same; the long form has more seeds, more kills and
 * longer wells.
 */
const isLong = process.env['STILLWELL_LONG'] === '1';

export function depth<T>(short: T, long: T): T {
  return isLong ? long : short;
}
