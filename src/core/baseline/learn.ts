/**
 * When a normal is known, and how it moves: first after enough healthy days, then a little each
 * healthy day, never on a day on which something stood that changes what is measured. What was
 * learnt first stays as `pinned`, since a fault that grows slowly takes a sliding measure along
 * with it.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import { CATALOGUE, type AlarmKind } from '../../../shared/alarms/catalogue.ts';
import type { Card, PumpCard } from '../domain/card.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { Baseline, Normal } from './baseline.ts';
import { baselineOf, normalField } from './baseline-of-days.ts';
import { ampsAtMid, ampsAtNormalVolts } from './comparable-amps.ts';
import { judgeDay } from './healthy-day.ts';
import { clearToday, addDay, newLearning, addSample, type Learning } from './learning.ts';
import type { NotLearned } from './reason-text.ts';
import { hasMoved } from './has-moved.ts';
import { trackShape } from './shape-track.ts';

export { newLearning, type Learning } from './learning.ts';

/**
 * Enough to know a normal by: a working week with a handful of runs a day; for wells that seldom
 * run more days make up for it. Ten days with three runs is a stock tank on a float. With 20 amps
 * the standard error of their median is 0.28 of their spread.
 */
const ENOUGH = [
  { days: 5, cycles: 20 },
  { days: 7, cycles: 10 },
  { days: 10, cycles: 3 },
] as const;
/**
 * After so many whole days none of which could be healthy, it is said that there is no normal here.
 */
const UNHEALTHY_DAYS_TO_EMIT = 5;

export interface DayInput {
  /** The day's line of this pump. */
  day: DayEvent;
  /** When the day ended, and how long it was: 23 h and 25 h once a year each, s. */
  atMs: number;
  dayS: number;
  card: Card;
  pump: PumpCard;
  /** Kinds of alarm that stood at any time of the day on this pump or its well. */
  activeAlarms: Iterable<AlarmKind>;
  /** What is normal so far, and the pinned one where there is one. */
  baseline?: Baseline | undefined;
  pinned?: Baseline | undefined;
  /** Air charge of the tank as hydraulics found it, kPa gauge. */
  prechargeKpa?: number | undefined;
}

export interface DayResult {
  /** Did the day teach, and if not, why. */
  taught: boolean;
  because?: NotLearned;
  /** What is normal from now on; absent while not known. */
  baseline?: Baseline;
  /** It is the first: keep it as pinned too. */
  first: boolean;
  /** Worth a baseline line: first, or moved further than its own error. */
  shouldEmit: boolean;
  /** Set when it is to be told that there is no normal here. */
  noneBecause?: NotLearned;
}

/**
 * Takes one finished cycle into the running day; `hour` is that of the local day in which it began.
 * Cycles that were not whole, or no runs at all, are left out. Under an alarm whose days teach
 * nothing the usual shape stays as it is: no day of it could be taken back.
 */
export function learnCycle(
  state: Learning,
  cycle: Cycle,
  baseline?: Baseline,
  { hour, isUnderAlarm = false }: { hour?: number | undefined; isUnderAlarm?: boolean } = {},
): void {
  if (cycle.flags.some((flag) => flag === 'failed-start' || flag === 'merged' || flag === 'clock-step'))
    return;
  addSample(state, cycle, { ampsAtMid: comparableAmps(state, cycle, baseline), hour });
  // Coarse sampling gives a coarse shape, which is a shape all the same.
  if (isUnderAlarm || cycle.flags.some((flag) => flag !== 'coarse')) return;
  const normalRanS = baseline?.ranS?.median ?? cycle.ranS;
  const track = trackShape(state.shape, cycle, normalRanS);
  if (track) state.shape = track;
}

/** Amps at the middle of the band that this well has shown so far. */
function comparableAmps(state: Learning, cycle: Cycle, baseline: Baseline | undefined): number | undefined {
  const cutInKpa =
    baseline?.cutInKpa?.median ?? state.recentDays[0]?.cutIn[1] ?? state.today[0]?.[2] ?? cycle.cutInKpa;
  const cutOutKpa =
    baseline?.cutOutKpa?.median ?? state.recentDays[0]?.cutOut[1] ?? state.today[0]?.[3] ?? cycle.cutOutKpa;
  return cutInKpa === undefined || cutOutKpa === undefined
    ? ampsAtNormalVolts(cycle)
    : ampsAtMid(cycle, { cutInKpa, cutOutKpa });
}

/** Ends a local day: it teaches or not, and what is normal from now on is said. */
export function learnDay(state: Learning, input: DayInput): DayResult {
  const reason = notLearnedReason(state, input);
  const { cycles = 0, ranS = 0, date } = input.day;
  if (reason === undefined) addDay(state, date, { cycles, ranS });
  clearToday(state);
  if (!hasEnoughDays(state)) return notLearnedYet(state, input, reason);
  const handPinned = input.pinned?.pinned === true ? input.pinned : undefined;
  const first = input.baseline === undefined || (input.baseline.pinned && input.baseline.ranS === undefined);
  // `days` counts all since learning began; the window may hold fewer after days were taken back.
  const isMeasure = reason === undefined && (first || !state.isShortOfDays);
  const baseline =
    isMeasure || !input.baseline ? baselineOf(state, { atMs: input.atMs, date }, handPinned) : input.baseline;
  const shouldEmit = first || hasMoved(input.baseline, baseline);
  // What was told stays the measure of the next move: small steps in one direction are told when
  // they add up.
  const baselineToKeep =
    shouldEmit || !input.baseline
      ? baseline
      : { ...baseline, lastEmitted: input.baseline.lastEmitted ?? emittedMedians(input.baseline) };
  if (shouldEmit) baselineToKeep.lastEmitted = emittedMedians(baseline);
  return {
    taught: reason === undefined,
    ...(reason !== undefined && { because: reason }),
    baseline: baselineToKeep,
    first,
    shouldEmit,
  };
}

function notLearnedReason(state: Learning, input: DayInput): NotLearned | undefined {
  const health = judgeDay(state, input);
  if (health.is !== 'healthy') {
    if (health.is === 'unhealthy') state.unhealthyDays++;
    return health.because;
  }
  for (const kind of input.activeAlarms)
    if (!CATALOGUE[kind].daysTeach) return { reason: 'alarm-was-active', figures: { kind } };
  return undefined;
}

function notLearnedYet(state: Learning, input: DayInput, reason: NotLearned | undefined): DayResult {
  const result = {
    taught: reason === undefined,
    first: false,
    ...(reason !== undefined && { because: reason }),
  };
  // Days were taken back, or a person pinned a normal: there is one, and the well is judged by it.
  if (input.baseline) return { ...result, baseline: input.baseline, shouldEmit: false };
  if (
    reason === undefined ||
    state.unhealthyDays < UNHEALTHY_DAYS_TO_EMIT ||
    state.unhealthyDays <= state.days
  ) {
    return { ...result, shouldEmit: false };
  }
  const isNew = state.noneBecause === undefined;
  state.noneBecause = reason.reason;
  return {
    ...result,
    shouldEmit: isNew,
    ...(isNew && { noneBecause: reason }),
  };
}

function hasEnoughDays(state: Learning): boolean {
  return ENOUGH.some((enough) => state.days >= enough.days && state.cycles >= enough.cycles);
}

/** The medians that the next move is measured from. */
export function emittedMedians(baseline: Baseline): NonNullable<Baseline['lastEmitted']> {
  return {
    ...(baseline.amps && { amps: baseline.amps.median }),
    ...(baseline.cutInKpa && { cutInKpa: baseline.cutInKpa.median }),
    ...(baseline.cutOutKpa && { cutOutKpa: baseline.cutOutKpa.median }),
    ...(baseline.ranS && { ranS: baseline.ranS.median }),
    ...(baseline.cyclesPerDay && { cyclesPerDay: baseline.cyclesPerDay.median }),
  };
}

/** After a repair: what was normal is no measure any more. */
export function resetLearning(state: Learning): void {
  delete state.noneBecause;
  delete state.isShortOfDays;
  delete state.shape;
  Object.assign(state, newLearning());
}

/**
 * What a person says is normal, over what was learnt. Spreads are the learnt ones where there are
 * any, else what a clamp and a supply usually show: 1.5 % of amps, 2 psi of pressure (common
 * practice). `n` is 0: it was not counted.
 */
export function pinBaseline(
  learned: Baseline | undefined,
  values: { amps?: number; cutInKpa?: number; cutOutKpa?: number },
  atMs: number,
): Baseline {
  const { lastEmitted: _lastEmitted, ...rest } = learned ?? { pinned: true };
  const pin = (
    value: number | undefined,
    previous: Normal | undefined,
    spread: number,
  ): Normal | undefined =>
    value === undefined
      ? undefined
      : { median: value, spread: previous && previous.spread > 0 ? previous.spread : spread, n: 0 };
  const pinned: Baseline = {
    ...rest,
    atMs,
    pinned: true,
    ...normalField('amps', pin(values.amps, learned?.amps, 0.015 * (values.amps ?? 0)) ?? learned?.amps),
    ...normalField('cutInKpa', pin(values.cutInKpa, learned?.cutInKpa, 14) ?? learned?.cutInKpa),
    ...normalField('cutOutKpa', pin(values.cutOutKpa, learned?.cutOutKpa, 14) ?? learned?.cutOutKpa),
  };
  // Current at the middle of the band was measured under the old amps; it is learnt again under the
  // new ones.
  if (values.amps !== undefined) delete pinned.ampsAtMid;
  return pinned;
}
