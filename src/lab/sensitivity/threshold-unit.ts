/** The unit of a threshold, as its name says it (house rule: the unit stands in the name). */

/** By the end of a name, the longest first. */
const UNIT_OF_ENDING: readonly (readonly [ending: RegExp, unit: string])[] = [
  [/_KPA_PER_MIN$/, 'kPa/min'],
  [/_KPA_PER_L$/, 'kPa/L'],
  [/_L_PER_DAY$/, 'L/day'],
  [/_L_PER_H$/, 'L/h'],
  [/_L_PER_S$/, 'L/s'],
  [/_PER_KPA$/, '1/kPa'],
  [/_PER_DAY$/, '1/day'],
  [/_PER_YEAR$/, '1/year'],
  [/_KPA_L$/, 'kPa L'],
  [/_KPA$/, 'kPa'],
  [/_MS$/, 'ms'],
  [/_S$/, 's'],
  [/_H$/, 'h'],
  [/(^|_)MINUTES?$/, 'min'],
  [/(^|_)DAYS($|_[A-Z]+$)/, 'days'],
  [/_HOURS$/, 'h'],
  [/_M$/, 'm'],
  [/_C$/, '°C'],
  [/_K$/, 'K'],
  [/_A$/, 'A'],
  [/_W$/, 'W'],
  [/_L$/, 'L'],
  [/_VOLTS$/, 'V'],
];
/** Things that are counted: their numbers are whole. */
const COUNTED =
  /(RUNS|STARTS|CYCLES|READINGS|FILLS|TRIES|FAULTS|SAGS|CLIMBS|KNEES|STATES|POINTS|ENDS|BUFFERED|NOTIFIED_PER_PUMP|FIGURES|REFERENCE_FROM|REFERENCE_TO)(?=_|$)/;
/** Words that have such a thing in them and are something else. */
const NOT_COUNTED = /(RATIO|MULTIPLE|FRACTION|SPREADS|PERIOD_FILLS)$/;

export function unitOf(name: string): string {
  const [constant = '', ...entries] = name.split('.');
  const last = entries.at(-1);
  // An entry such as `overS` brings its own.
  const own = last === undefined ? constant : `_${last.replaceAll(/([a-z])([A-Z])/g, '$1_$2').toUpperCase()}`;
  const isRatio = NOT_COUNTED.test(own);
  for (const candidate of [own, constant]) {
    const unit = UNIT_OF_ENDING.find(([ending]) => ending.test(candidate))?.[1];
    if (unit !== undefined && !isRatio) return unit;
  }
  return COUNTED.test(own) && !isRatio ? 'count' : '';
}

/** Whether a number of this unit makes sense only whole: so many runs, minutes in a row, days. */
export function isWhole(unit: string, value: number): boolean {
  return Number.isInteger(value) && ['count', 'min', 'days', 'h'].includes(unit);
}
