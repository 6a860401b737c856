/** The scoreboard's figures, each beside the number it is held to, and whether it keeps to it. */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { heaviest, lowerMedian, type Scoreboard } from './scoreboard.ts';
import type { FaultResult } from './judge.ts';
import { quantile, type Histogram } from './histogram.ts';

export interface Figure {
  /** As in `--json`. */
  name: string;
  label: string;
  /** Absent where nothing was there to measure. */
  value?: number;
  text: string;
  target: string;
  /** Absent where no number is wanted, or nothing was measured. */
  met?: boolean;
}

/** From so many years on a corpus is the full one. */
const FULL_YEARS = 90;
const MAX_OF_ONE_KIND = 2;

interface Limit {
  min?: number;
  max?: number;
}

export function figuresOf(board: Scoreboard): Figure[] {
  return [...cycleFigures(board), ...waterFigures(board), ...alarmFigures(board), ...causeFigures(board)];
}

function cycleFigures({ measures }: Scoreboard): Figure[] {
  const { cycles, startReadings, stopReadings, amps, cutInKpa, cutOutKpa } = measures;
  return [
    figure('cyclesFound', 'cycles of three readings or more found', ratio(cycles.found, cycles.required), {
      format: (v) => `${formatRatio(v)} of ${formatCount(cycles.required)}`,
      min: 0.999,
    }),
    figure('cyclesFalse', 'false cycles: no real run', ratio(cycles.extra, cycles.reported), {
      format: (v) => `${formatRatio(v)} (${formatCount(cycles.extra)})`,
      max: 0.001,
    }),
    figure('startReadings', 'start, readings off: 99 %', quantile(startReadings, 0.99), {
      format: (v) => `${formatFixed(v, 2)} (median ${formatFixed(quantile(startReadings, 0.5), 2)})`,
      max: 1,
    }),
    figure('stopReadings', 'stop, readings off: 99 %', quantile(stopReadings, 0.99), {
      format: (v) => `${formatFixed(v, 2)} (median ${formatFixed(quantile(stopReadings, 0.5), 2)})`,
      max: 1,
    }),
    figure('ampsP90', 'running amps off: 90 %', quantile(amps, 0.9), {
      format: formatWithMedian(amps),
      max: 0.005,
    }),
    figure('cutInKpaP90', 'cut-in off: 90 %', quantile(cutInKpa, 0.9), { format: formatKpa }),
    figure('cutOutKpaP90', 'cut-out off: 90 %', quantile(cutOutKpa, 0.9), { format: formatKpa }),
  ];
}

function waterFigures({ measures }: Scoreboard): Figure[] {
  const { litres, litresRequired, usedDay, usedDaysRequired, leak, leakDaysRequired, falseLeak } = measures;
  return [
    figure('litresP90', 'liters a run off: 90 % (tank on the card)', quantile(litres, 0.9), {
      format: (v) =>
        `${formatWithMedian(litres)(v)}, reported for ${formatRatio(ratio(litres.n, litresRequired))}`,
      max: 0.08,
    }),
    figure('usedDayP90', 'water a day off: 90 %', quantile(usedDay, 0.9), {
      format: (v) =>
        `${formatWithMedian(usedDay)(v)}, reported for ${formatRatio(ratio(usedDay.n, usedDaysRequired))}`,
      max: 0.05,
    }),
    figure('leakP90', 'leak from 5 L/h up off: 90 %', quantile(leak, 0.9), {
      format: (v) =>
        `${formatWithMedian(leak)(v)}, reported for ${formatRatio(ratio(leak.n, leakDaysRequired))}`,
      max: 0.2,
    }),
    figure('leakOfSoundP90', 'leak reported at a tight well: 90 %', quantile(falseLeak, 0.9), {
      format: (v) => `${formatFixed(v, 2)} L/h`,
    }),
  ];
}

function alarmFigures(board: Scoreboard): Figure[] {
  const { faultResults, falseAlarms, healthyYears, badInput, badInputWrong } = board;
  const now = faultResults.filter(({ isNow }) => isNow);
  const others = faultResults.filter(({ isNow }) => !isNow);
  const aYear = ratio(falseAlarms.length, healthyYears);
  return [
    recall('recall', 'faults found', faultResults, { min: 0.98 }),
    recall('recallNow', "found, of those to act on at once ('now')", now, { min: 1 }),
    recall('recallHeaviest', 'found, of the two heaviest sizes of each', heaviest(faultResults), { min: 1 }),
    inTime('inTimeNow', "'now' reported within 2 min of knowable", now, { min: 1 }),
    inTime('inTime', 'the others reported in time', others, {}),
    inTime('ampsStep', 'amps step of 4 %: within 40 cycles', withMeasure(faultResults, 'amps-step'), {
      min: 1,
    }),
    inTime('ampsDrift', 'amps drift of 6 %: before it is 8 %', withMeasure(faultResults, 'amps-drift'), {
      min: 1,
    }),
    inTime('tankHalf', 'tank half waterlogged: within 2 days', withMeasure(faultResults, 'tank-half'), {
      min: 1,
    }),
    figure('falseAlarmsAYear', 'false alarms a healthy well-year', aYear, {
      format: (v) => `${formatFixed(v, 2)} (${falseAlarms.length} in ${formatFixed(healthyYears, 1)} years)`,
      max: 0.1,
    }),
    maxOfOneKind(board),
    figure('alarmsAFault', 'alarms a fault, of those reported at all', alarmsAFault(faultResults), {
      format: (v) => formatFixed(v, 2),
      max: 1.3,
    }),
    figure('wrongAFault', 'of them neither right nor a symptom', wrongAFault(faultResults), {
      format: (v) => formatFixed(v, 2),
    }),
    inTime('badInput', 'bad input identified in time', badInput, { min: 1 }),
    figure(
      'badInputWrong',
      'wrong findings on bad input',
      badInput.length === 0 ? undefined : badInputWrong.length,
      {
        format: (v) => `${v} in ${badInput.length} cases`,
        max: 0,
      },
    ),
  ];
}

function causeFigures({ faultResults }: Scoreboard): Figure[] {
  const named = faultResults.flatMap(({ cause }) => cause ?? []);
  const format = (v: number): string => `${formatRatio(v)} of ${named.length}`;
  const first = ratio(named.filter((cause) => cause.first).length, named.length);
  const second = ratio(named.filter((cause) => cause.second).length, named.length);
  return [
    figure('causeFirst', 'right cause, or its look-alike, named first', first, { format: format, min: 0.85 }),
    figure('causeFirstTwo', 'among the first two', second, { format: format, min: 0.95 }),
  ];
}

function withMeasure(
  found: readonly FaultResult[],
  what: NonNullable<FaultResult['measure']>,
): FaultResult[] {
  return found.filter(({ measure }) => measure === what);
}

function recall(name: string, what: string, found: readonly FaultResult[], limit: Limit): Figure {
  const raised = found.filter(({ atMs }) => atMs !== undefined).length;
  return figure(name, what, ratio(raised, found.length), {
    format: (v) => `${formatRatio(v)} (${raised} of ${found.length})`,
    ...limit,
  });
}

function inTime(name: string, what: string, found: readonly FaultResult[], limit: Limit): Figure {
  const good = found.filter((one) => one.inTime).length;
  const after = found.flatMap(({ afterMs }) => afterMs ?? []).sort((a, b) => a - b);
  return figure(name, what, ratio(good, found.length), {
    format: (v) =>
      `${formatRatio(v)} (${good} of ${found.length}; median ${formatDuration(lowerMedian(after))}, worst ${formatDuration(after.at(-1))})`,
    ...limit,
  });
}

/**
 * Two of one kind in a hundred well-years: of fewer years one alarm says nothing about its kind.
 */
function maxOfOneKind({ rows, healthyYears }: Scoreboard): Figure {
  const worst = [...rows].sort((a, b) => b.falseAlarms - a.falseAlarms)[0];
  return figure(
    'falseAlarmsOfOneKind',
    'most false alarms of one kind',
    healthyYears === 0 ? undefined : (worst?.falseAlarms ?? 0),
    {
      format: (v) => (v === 0 ? 'none' : `${v} (${worst!.alarm})`),
      ...(healthyYears >= FULL_YEARS && { max: MAX_OF_ONE_KIND }),
    },
  );
}

function alarmsAFault(found: readonly FaultResult[]): number | undefined {
  const raised = found.filter(({ alarms }) => alarms > 0);
  return ratio(
    raised.reduce((n, { alarms }) => n + alarms, 0),
    raised.length,
  );
}

function wrongAFault(found: readonly FaultResult[]): number | undefined {
  return ratio(
    found.reduce((n, { wrong }) => n + wrong.length, 0),
    found.length,
  );
}

function figure(
  name: string,
  what: string,
  value: number | undefined,
  { format, min, max }: Limit & { format: (value: number) => string },
): Figure {
  const target = min !== undefined ? `>= ${min}` : max !== undefined ? `<= ${max}` : '';
  if (value === undefined) return { name, label: what, text: 'nothing to measure', target };
  const met = value >= (min ?? Number.NEGATIVE_INFINITY) && value <= (max ?? Number.POSITIVE_INFINITY);
  return { name, label: what, value, text: format(value), target, ...(target !== '' && { met }) };
}

function ratio(part: number, whole: number): number | undefined {
  return whole === 0 ? undefined : part / whole;
}

function formatWithMedian(spread: Histogram): (p90: number) => string {
  return (p90) => `${formatPercent(p90)} (median ${formatPercent(quantile(spread, 0.5))})`;
}

function formatPercent(value: number | undefined): string {
  return value === undefined ? '-' : `${(100 * value).toFixed(2)} %`;
}

function formatRatio(value: number | undefined): string {
  return value === undefined ? '-' : value.toFixed(4).replace(/0$/, '');
}

function formatFixed(value: number | undefined, digits: number): string {
  return value === undefined ? '-' : value.toFixed(digits);
}

function formatKpa(value: number): string {
  return `${value.toFixed(1)} kPa`;
}

function formatCount(value: number): string {
  return value.toLocaleString('en');
}

/** A length of time in the unit a person would use. */
export function formatDuration(ms: number | undefined): string {
  if (ms === undefined) return '-';
  if (ms < 120_000) return `${Math.round(ms / 1000)} s`;
  if (ms < 2 * HOUR_MS) return `${Math.round(ms / MINUTE_MS)} min`;
  return ms < 2 * DAY_MS ? `${(ms / HOUR_MS).toFixed(1)} h` : `${(ms / DAY_MS).toFixed(1)} d`;
}
