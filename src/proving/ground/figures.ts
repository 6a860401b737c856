/** The scoreboard's figures, each beside the number it is held to, and whether it keeps to it. */
import { heaviest, middle, type Board } from './board.ts';
import type { Found } from './judge.ts';
import { quantile, type Spread } from './spread.ts';

export interface Figure {
  /** As in `--json`. */
  name: string;
  what: string;
  /** Absent where nothing was there to measure. */
  value?: number;
  shown: string;
  wanted: string;
  /** Absent where no number is wanted, or nothing was measured. */
  met?: boolean;
}

/** From so many years on a corpus is the full one. */
const FULL_YEARS = 90;
const MOST_OF_ONE_KIND = 2;

interface Limit {
  atLeast?: number;
  atMost?: number;
}

export function figuresOf(board: Board): Figure[] {
  return [...cycleFigures(board), ...waterFigures(board), ...alarmFigures(board), ...causeFigures(board)];
}

function cycleFigures({ measures }: Board): Figure[] {
  const { cycles, startReadings, stopReadings, amps, cutInKpa, cutOutKpa } = measures;
  return [
    figure('cyclesFound', 'cycles of three readings or more found', ratio(cycles.found, cycles.asked), {
      shown: (v) => `${share(v)} of ${count(cycles.asked)}`,
      atLeast: 0.999,
    }),
    figure('cyclesFalse', 'cycles that no run stands behind', ratio(cycles.extra, cycles.said), {
      shown: (v) => `${share(v)} (${count(cycles.extra)})`,
      atMost: 0.001,
    }),
    figure('startReadings', 'start, readings off: 99 %', quantile(startReadings, 0.99), {
      shown: (v) => `${fixed(v, 2)} (median ${fixed(quantile(startReadings, 0.5), 2)})`,
      atMost: 1,
    }),
    figure('stopReadings', 'stop, readings off: 99 %', quantile(stopReadings, 0.99), {
      shown: (v) => `${fixed(v, 2)} (median ${fixed(quantile(stopReadings, 0.5), 2)})`,
      atMost: 1,
    }),
    figure('ampsP90', 'running amps off: 90 %', quantile(amps, 0.9), { shown: halves(amps), atMost: 0.005 }),
    figure('cutInKpaP90', 'cut-in off: 90 %', quantile(cutInKpa, 0.9), { shown: kpa }),
    figure('cutOutKpaP90', 'cut-out off: 90 %', quantile(cutOutKpa, 0.9), { shown: kpa }),
  ];
}

function waterFigures({ measures }: Board): Figure[] {
  const { litres, litresAsked, usedDay, usedDaysAsked, leak, leakDaysAsked, leakOfSound } = measures;
  return [
    figure('litresP90', 'litres a run off: 90 % (tank on the card)', quantile(litres, 0.9), {
      shown: (v) => `${halves(litres)(v)}, said of ${share(ratio(litres.n, litresAsked))}`,
      atMost: 0.08,
    }),
    figure('usedDayP90', 'water a day off: 90 %', quantile(usedDay, 0.9), {
      shown: (v) => `${halves(usedDay)(v)}, said of ${share(ratio(usedDay.n, usedDaysAsked))}`,
      atMost: 0.05,
    }),
    figure('leakP90', 'leak from 5 L/h up off: 90 %', quantile(leak, 0.9), {
      shown: (v) => `${halves(leak)(v)}, said of ${share(ratio(leak.n, leakDaysAsked))}`,
      atMost: 0.2,
    }),
    figure('leakOfSoundP90', 'leak said where nothing leaks: 90 %', quantile(leakOfSound, 0.9), {
      shown: (v) => `${fixed(v, 2)} L/h`,
    }),
  ];
}

function alarmFigures(board: Board): Figure[] {
  const { found, falseAlarms, healthyYears, badInput, badInputWrong } = board;
  const now = found.filter(({ isNow }) => isNow);
  const others = found.filter(({ isNow }) => !isNow);
  const aYear = ratio(falseAlarms.length, healthyYears);
  return [
    recall('recall', 'faults found', found, { atLeast: 0.98 }),
    recall('recallNow', "found, of those to act on at once ('now')", now, { atLeast: 1 }),
    recall('recallHeaviest', 'found, of the two heaviest sizes of each', heaviest(found), { atLeast: 1 }),
    inTime('inTimeNow', "'now' told within 2 min of knowable", now, { atLeast: 1 }),
    inTime('inTime', 'the others told in their time', others, {}),
    inTime('ampsStep', 'amps step of 4 %: within 40 cycles', measured(found, 'amps-step'), { atLeast: 1 }),
    inTime('ampsDrift', 'amps drift of 6 %: before it is 8 %', measured(found, 'amps-drift'), {
      atLeast: 1,
    }),
    inTime('tankHalf', 'tank half waterlogged: within 2 days', measured(found, 'tank-half'), { atLeast: 1 }),
    figure('falseAlarmsAYear', 'false alarms a healthy well-year', aYear, {
      shown: (v) => `${fixed(v, 2)} (${falseAlarms.length} in ${fixed(healthyYears, 1)} years)`,
      atMost: 0.1,
    }),
    mostOfOneKind(board),
    figure('alarmsAFault', 'alarms a fault, of those told at all', alarmsAFault(found), {
      shown: (v) => fixed(v, 2),
      atMost: 1.3,
    }),
    figure('wrongAFault', 'of them neither right nor a symptom', wrongAFault(found), {
      shown: (v) => fixed(v, 2),
    }),
    inTime('badInput', 'bad input told for what it is, in time', badInput, { atLeast: 1 }),
    figure(
      'badInputWrong',
      'wrong findings on bad input',
      badInput.length === 0 ? undefined : badInputWrong.length,
      {
        shown: (v) => `${v} in ${badInput.length} cases`,
        atMost: 0,
      },
    ),
  ];
}

function causeFigures({ found }: Board): Figure[] {
  const named = found.flatMap(({ cause }) => cause ?? []);
  const of = (v: number): string => `${share(v)} of ${named.length}`;
  const first = ratio(named.filter((cause) => cause.first).length, named.length);
  const second = ratio(named.filter((cause) => cause.second).length, named.length);
  return [
    figure('causeFirst', 'right cause, or its look-alike, named first', first, { shown: of, atLeast: 0.85 }),
    figure('causeFirstTwo', 'among the first two', second, { shown: of, atLeast: 0.95 }),
  ];
}

function measured(found: readonly Found[], what: NonNullable<Found['measure']>): Found[] {
  return found.filter(({ measure }) => measure === what);
}

function recall(name: string, what: string, found: readonly Found[], limit: Limit): Figure {
  const told = found.filter(({ atMs }) => atMs !== undefined).length;
  return figure(name, what, ratio(told, found.length), {
    shown: (v) => `${share(v)} (${told} of ${found.length})`,
    ...limit,
  });
}

function inTime(name: string, what: string, found: readonly Found[], limit: Limit): Figure {
  const good = found.filter((one) => one.inTime).length;
  const after = found.flatMap(({ afterMs }) => afterMs ?? []).sort((a, b) => a - b);
  return figure(name, what, ratio(good, found.length), {
    shown: (v) =>
      `${share(v)} (${good} of ${found.length}; median ${lasting(middle(after))}, worst ${lasting(after.at(-1))})`,
    ...limit,
  });
}

/** Two of one kind in a hundred well-years: of fewer years one alarm says nothing about its kind. */
function mostOfOneKind({ rows, healthyYears }: Board): Figure {
  const most = [...rows].sort((a, b) => b.falseAlarms - a.falseAlarms)[0];
  return figure(
    'falseAlarmsOfOneKind',
    'most false alarms of one kind',
    healthyYears === 0 ? undefined : (most?.falseAlarms ?? 0),
    {
      shown: (v) => (v === 0 ? 'none' : `${v} (${most!.alarm})`),
      ...(healthyYears >= FULL_YEARS && { atMost: MOST_OF_ONE_KIND }),
    },
  );
}

function alarmsAFault(found: readonly Found[]): number | undefined {
  const told = found.filter(({ alarms }) => alarms > 0);
  return ratio(
    told.reduce((n, { alarms }) => n + alarms, 0),
    told.length,
  );
}

function wrongAFault(found: readonly Found[]): number | undefined {
  return ratio(
    found.reduce((n, { wrong }) => n + wrong.length, 0),
    found.length,
  );
}

function figure(
  name: string,
  what: string,
  value: number | undefined,
  { shown, atLeast, atMost }: Limit & { shown: (value: number) => string },
): Figure {
  const wanted = atLeast !== undefined ? `>= ${atLeast}` : atMost !== undefined ? `<= ${atMost}` : '';
  if (value === undefined) return { name, what, shown: 'nothing to measure', wanted };
  const met = value >= (atLeast ?? Number.NEGATIVE_INFINITY) && value <= (atMost ?? Number.POSITIVE_INFINITY);
  return { name, what, value, shown: shown(value), wanted, ...(wanted !== '' && { met }) };
}

function ratio(part: number, whole: number): number | undefined {
  return whole === 0 ? undefined : part / whole;
}

function halves(spread: Spread): (p90: number) => string {
  return (p90) => `${percent(p90)} (median ${percent(quantile(spread, 0.5))})`;
}

function percent(value: number | undefined): string {
  return value === undefined ? '-' : `${(100 * value).toFixed(2)} %`;
}

function share(value: number | undefined): string {
  return value === undefined ? '-' : value.toFixed(4).replace(/0$/, '');
}

function fixed(value: number | undefined, digits: number): string {
  return value === undefined ? '-' : value.toFixed(digits);
}

function kpa(value: number): string {
  return `${value.toFixed(1)} kPa`;
}

function count(value: number): string {
  return value.toLocaleString('en');
}

/** A length of time in the unit a person would use. */
export function lasting(ms: number | undefined): string {
  if (ms === undefined) return '-';
  if (ms < 120_000) return `${Math.round(ms / 1000)} s`;
  if (ms < 7_200_000) return `${Math.round(ms / 60_000)} min`;
  return ms < 172_800_000 ? `${(ms / 3_600_000).toFixed(1)} h` : `${(ms / 86_400_000).toFixed(1)} d`;
}
