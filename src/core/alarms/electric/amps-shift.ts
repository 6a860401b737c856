/**
 * Has running current moved from its normal? Two questions with two measures: a step, against what
 * is normal lately, and a slow drift, against what was first learnt or pinned, because a sliding
 * normal goes along with a slow fault. For the step a CUSUM over runs must speak, for the drift an
 * EWMA; and the median of the runs since the change must be off by more than the supply could do.
 * The limits of both charts, and how many runs that median is of, come from the well's budget of
 * false alarms. Where voltage is measured the runs are brought to one supply first
 * (src/core/baseline/supply.ts).
 */
import { median } from '../../baseline/robust.ts';
import type { Normal } from '../../baseline/baseline.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { runLengthFor, autocorrelationFactor } from '../charts/false-alarm-budget.ts';
import { cusumDirection, updateCusum, type Cusum } from '../charts/cusum.ts';
import { ewmaLimit, updateEwma } from '../charts/ewma.ts';
import { hasRareRuns, recentCycles, isCompleteRun, pumpInMinute } from '../scene-queries.ts';
import { changePoint } from '../charts/change-point.ts';
import { cusumLimit, ewmaWidth, medianSize } from '../charts/run-length.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import type { AmpsShiftFigures } from '../../../../shared/text/en/alarms/electric/amps-shift-text.ts';
import { CLEAR, cannotTell, type CannotTell, type Clear } from '../evaluation.ts';

/**
 * A step counts from the larger of 3.3 % and three of the well's own spreads: the least at which a
 * true step of 4 % is found within forty runs, its median being known to about 0.5 % then. Slow
 * drift counts from 5.5 %, so that 6 % is found before it is 8 %.
 */
const MIN_STEP = 0.033;
const MIN_DRIFT = 0.055;
const LIMIT_SPREADS = 3;
/**
 * A step under the larger of 4 % and three spreads may be the supply, where voltage is not
 * measured.
 */
const MIN_SUPPLY_STEP = 0.04;
/**
 * Runs whose median must be off: of a drift twenty, of a step as many as the budget asks
 * (stepRuns), within these bounds: five make a median that two odd ones do not move, and twelve are
 * a day of a house. Where there are no more yet eight are enough for either.
 */
const DRIFT_RUNS = 20;
const MAX_STEP_RUNS = 12;
const MIN_RUNS = 8;
const MIN_STEP_RUNS = 5;
/**
 * A store that is filled every other day makes as many runs in a month: there each run is held
 * against the few there are: two of the last three, off by as much as a drift asks, are enough.
 * Few runs know no spread under this.
 */
const RARE_RUNS = 3;
const RARE_SPREAD_RATIO = 0.01;
/**
 * A shift that so many newest runs do not show to half any more is over, though the median of all
 * does.
 */
const NEWEST_RUNS = 5;
const MIN_NEWEST_RATIO = 0.5;
/** It is over when less than this share of the limit is left. */
const CLEAR_RATIO = 0.6;
/** Weight of a new run in the mean that watches for drift: about twenty runs count. */
const LAMBDA = 0.1;
/**
 * What clamp, supply and temperature make of the steadiest pump: 0.5 %. A spread under it was
 * learnt from too few runs.
 */
const MIN_SPREAD_RATIO = 0.005;
/**
 * Currents of following runs hang together by supply and temperature of the day: AR(1) of about 0.4
 * (assumed; none was measured).
 */
const AUTOCORRELATION_FACTOR = autocorrelationFactor(0.4);
/**
 * Where voltage has moved by more than its effect is known, the limit gives way: two standard
 * errors of that.
 */
const UNCERTAINTY_FACTOR = 2;
/** A run forgets so much of the range of currents at rest: half within some 350 runs. */
const REST_DECAY = 0.002;
/** A clamp's zero strays by less than this (0.5 % of a 30 A clamp). */
const MIN_OTHER_LOAD_A = 0.15;
/**
 * Runs of about the usual length are compared: long ones were held at low pressure by a garden, and
 * draw more.
 */
const MIN_RUN_RATIO = 0.35;
const MAX_RUN_RATIO = 2.5;
/**
 * A long run that draws so much less is no garden's: it is long because little comes. The level in
 * a well that is drawn down makes less of it.
 */
const LONG_RUN_AMPS_DROP = 0.1;
/**
 * A run's first reading holds its inrush and its last may hold the stop, where the clamp showed a
 * part of a second at work. Two between them leave the median to what the pump draws; of three the
 * stop's would be half, and just the short runs that it was caught in have three.
 */
const MIN_READINGS = 4;

/** What both watches of running current remember. */
export interface ShiftMemory {
  /** Lowest and highest current at rest, A. */
  rest?: [low: number, high: number];
  /** The sums of the CUSUM, and the mean of the EWMA, in sigma. */
  step?: [high: number, low: number];
  drift?: number;
  /** What was said last: may the supply have done it? */
  maybeSupply?: boolean;
}

export interface AmpsShift {
  is: 'shift';
  direction: 'high' | 'low';
  /** Of the normal, signed: -0.05 is 5 % low. */
  deviation: number;
  amps: number;
  normal: number;
  /** The larger of the step's limit and the supply's. */
  limit: number;
  isDrift: boolean;
  sinceMs: number;
  runs: number;
  /**
   * Where voltage is measured: its median in those runs, V, and the share by which bringing them to
   * one supply may be off.
   */
  volts?: number;
  supplyUncertainty: number;
}

/**
 * Takes the scene's cycle into the memory's sums and says what shift there is, that there is none,
 * or why that cannot be told.
 */
export function ampsShift(scene: Scene, memory: ShiftMemory): AmpsShift | Clear | CannotTell {
  const { cycle } = scene;
  const { baseline } = scene.pump;
  const { control } = scene.pump.card;
  recordRest(scene, memory);
  // A drive lets current follow demand, and no two of its runs are alike.
  if (control === 'variable-speed') return cannotTell('not-this-control');
  if (!cycle || !baseline?.amps) return cannotTell('learning');
  const latest = measureFor(scene, baseline);
  if (!latest || latest.ampsOf(cycle) === undefined || !isComparable(scene, cycle))
    return cannotTell('run-not-comparable');
  const rare = hasRareRuns(scene.pump);
  const step = testShift(scene, memory, latest, rare ? RARE_STEP : stepTest(stepRuns(scene, latest.normal)));
  if (step.is === 'shift') return step;
  const pinned = scene.pump.pinned && measureFor(scene, scene.pump.pinned);
  const drift =
    pinned && testShift(scene, memory, pinned, rare ? { ...RARE_STEP, isDrift: true } : DRIFT_TEST);
  return drift?.is === 'shift' ? drift : step;
}

/**
 * What else the conductor carries, as the rests before runs show it: lowest and highest, the nearer
 * end following by a share, so that a load that was taken away is forgotten within some weeks.
 */
function recordRest(scene: Scene, memory: ShiftMemory): void {
  const { cycle } = scene;
  if (!cycle) return;
  let rest: number | undefined;
  for (const minute of scene.well.minutes) {
    const pump = pumpInMinute(scene, minute);
    if (minute.atMs <= cycle.startedMs && pump?.ranS === 0 && pump.resting) rest = pump.resting.mean;
  }
  if (rest === undefined) return;
  const [low = rest, high = rest] = memory.rest ?? [];
  memory.rest = [
    roundToThousandth(rest < low ? rest : low + REST_DECAY * (rest - low)),
    roundToThousandth(rest > high ? rest : high + REST_DECAY * (rest - high)),
  ];
}

/**
 * Swing of the other load, A: by so much the current of two runs may differ for its sake alone.
 * Less is the clamp's own zero.
 */
function otherLoadSwingA(memory: ShiftMemory): number {
  const [low = 0, high = 0] = memory.rest ?? [];
  return high - low > MIN_OTHER_LOAD_A ? high - low : 0;
}

interface Measure {
  normal: Normal;
  ampsOf: (cycle: Cycle) => number | undefined;
}

/** Current at mid-band where both normal and runs have it, else the run's median. */
function measureFor(scene: Scene, from: { amps?: Normal; ampsAtMid?: Normal }): Measure | undefined {
  if (from.ampsAtMid && from.ampsAtMid.n >= MIN_RUNS && scene.cycle?.ampsAtMid !== undefined) {
    return { normal: from.ampsAtMid, ampsOf: (cycle) => cycle.ampsAtMid };
  }
  // Behind a throttling valve a run's current is as much as was drawn: only the same flow compares.
  if (scene.pump.card.control === 'constant-pressure-valve') return undefined;
  return from.amps && { normal: from.amps, ampsOf: (cycle) => cycle.amps };
}

function isComparable(scene: Scene, cycle: Cycle): boolean {
  const usual = scene.pump.baseline?.ranS?.median;
  if (!isCompleteRun(cycle) || cycle.readings < MIN_READINGS) return false;
  if (scene.pump.card.control === 'constant-pressure-valve') return true;
  if (usual === undefined) return true;
  return (
    cycle.ranS > MIN_RUN_RATIO * usual && (cycle.ranS < MAX_RUN_RATIO * usual || drawsMuchLess(scene, cycle))
  );
}

function drawsMuchLess({ pump }: Scene, { amps }: Cycle): boolean {
  const usual = pump.baseline?.amps?.median;
  return usual !== undefined && amps !== undefined && amps < (1 - LONG_RUN_AMPS_DROP) * usual;
}

interface ShiftTest {
  isDrift: boolean;
  runs: number;
  minRuns: number;
  minDeviation: number;
  minSpread: number;
}

/** Where runs are rare a step is asked as much as a drift, of the few runs there are. */
const RARE_STEP: ShiftTest = {
  isDrift: false,
  runs: RARE_RUNS,
  minRuns: RARE_RUNS,
  minDeviation: MIN_DRIFT,
  minSpread: RARE_SPREAD_RATIO,
};
const DRIFT_TEST: ShiftTest = {
  isDrift: true,
  runs: DRIFT_RUNS,
  minRuns: MIN_RUNS,
  minDeviation: MIN_DRIFT,
  minSpread: MIN_SPREAD_RATIO,
};

function stepTest(runs: number): ShiftTest {
  const minRuns = Math.min(MIN_RUNS, runs);
  return { isDrift: false, runs, minRuns, minDeviation: MIN_STEP, minSpread: MIN_SPREAD_RATIO };
}

function testShift(
  scene: Scene,
  memory: ShiftMemory,
  measure: Measure,
  test: ShiftTest,
): AmpsShift | Clear | CannotTell {
  const { normal } = measure;
  const last = recentCycles(
    scene,
    test.runs,
    (cycle) => isComparable(scene, cycle) && measure.ampsOf(cycle) !== undefined,
  );
  const supplyUncertainty = median(last.map((cycle) => cycle.voltsUncertainty ?? 0)) ?? 0;
  const spreadShare = Math.max(test.minSpread, normal.spread / normal.median);
  const limit =
    Math.max(test.minDeviation, LIMIT_SPREADS * spreadShare) +
    UNCERTAINTY_FACTOR * supplyUncertainty +
    otherLoadSwingA(memory) / normal.median;
  const deviation = measure.ampsOf(scene.cycle!)! / normal.median - 1;
  const chartDirection = (test.isDrift ? driftDirection : stepDirection)(
    scene,
    memory,
    deviation / (spreadShare * AUTOCORRELATION_FACTOR),
    limit / (spreadShare * AUTOCORRELATION_FACTOR),
  );
  if (last.length < test.minRuns) return cannotTell('too-few-runs');
  const middle = median(last.map((cycle) => measure.ampsOf(cycle)!))!;
  const share = middle / normal.median - 1;
  const direction = share > 0 ? 'high' : 'low';
  if (chartDirection !== direction || Math.abs(share) < limit)
    return Math.abs(share) < CLEAR_RATIO * limit ? CLEAR : cannotTell('near-limit');
  const newest = median(last.slice(-NEWEST_RUNS).map((cycle) => measure.ampsOf(cycle)!))!;
  if ((newest / normal.median - 1) / share < MIN_NEWEST_RATIO) return cannotTell('near-limit');
  const shifted = runsSinceChange(scene, measure, direction, limit);
  // The limit of both is exceeded, and the last run is back: there is nothing to tell by.
  if (shifted.length === 0) return cannotTell('near-limit');
  const runs = shifted.slice(-last.length);
  const amps = median(runs.map((cycle) => measure.ampsOf(cycle)!))!;
  return {
    is: 'shift',
    direction,
    deviation: amps / normal.median - 1,
    amps,
    normal: normal.median,
    limit: Math.max(MIN_SUPPLY_STEP, LIMIT_SPREADS * spreadShare),
    isDrift: test.isDrift,
    sinceMs: shifted[0]!.startedMs,
    runs: runs.length,
    supplyUncertainty,
    ...voltsOf(runs),
  };
}

/** The runs since the current left its normal that way, of all that are remembered. */
function runsSinceChange(
  scene: Scene,
  { normal, ampsOf }: Measure,
  direction: 'high' | 'low',
  limit: number,
): Cycle[] {
  const sign = direction === 'high' ? 1 : -1;
  const runs = recentCycles(
    scene,
    Infinity,
    (cycle) => isComparable(scene, cycle) && ampsOf(cycle) !== undefined,
  );
  const deviations = runs.map((cycle) => sign * (ampsOf(cycle)! / normal.median - 1));
  return runs.slice(changePoint(deviations, limit));
}

/**
 * A step is asked of the median of so many runs that chance puts it as far off as the limit, which
 * is three spreads and more, no more often than the well's budget allows.
 */
function stepRuns(scene: Scene, normal: Normal): number {
  const arl = runLength(scene);
  const size = medianSize({ limit: LIMIT_SPREADS / AUTOCORRELATION_FACTOR, arl, learnedFrom: normal.n });
  return Math.max(MIN_STEP_RUNS, Math.min(MAX_STEP_RUNS, size));
}

function voltsOf(cycles: readonly Cycle[]): { volts?: number } {
  const volts = median(cycles.map((cycle) => cycle.volts).filter((value) => value !== undefined));
  return volts === undefined ? {} : { volts };
}

function runLength(scene: Scene): number {
  const aYear = Math.max(50, (scene.pump.baseline?.cyclesPerDay?.median ?? 10) * 365);
  return runLengthFor('amps-high', aYear, scene.well.card);
}

/**
 * The CUSUM of steps; `off` and `shift` in sigma. It is held at twice its limit, so that it comes
 * back within as many runs as it went.
 */
function stepDirection(
  scene: Scene,
  memory: ShiftMemory,
  off: number,
  shift: number,
): 'high' | 'low' | undefined {
  const k = Math.min(1, shift / 2);
  const h = cusumLimit(k, runLength(scene));
  const [high = 0, low = 0] = memory.step ?? [];
  const sums: Cusum = { high, low };
  // One run far off is a fault of another kind: it counts for no more than three sigma.
  updateCusum(sums, Math.max(-3 - k, Math.min(3 + k, off)), k);
  const says = cusumDirection(sums, h);
  memory.step = [roundToThousandth(Math.min(2 * h, sums.high)), roundToThousandth(Math.min(2 * h, sums.low))];
  return says;
}

/** The EWMA of slow drift, in sigma. */
function driftDirection(scene: Scene, memory: ShiftMemory, off: number): 'high' | 'low' | undefined {
  const mean = roundToThousandth(updateEwma(memory.drift ?? 0, Math.max(-10, Math.min(10, off)), LAMBDA));
  memory.drift = mean;
  const limit = ewmaLimit(1, LAMBDA, ewmaWidth(LAMBDA, runLength(scene)));
  if (mean > limit) return 'high';
  return mean < -limit ? 'low' : undefined;
}

function roundToThousandth(value: number): number {
  return Math.round(1000 * value) / 1000;
}

/**
 * What the measured voltage adds to a finding's figures: volts, and the motor's apparent power at
 * them.
 */
export function supplyEvidence(scene: Scene, { volts, amps }: AmpsShift): Record<string, number> {
  const lines = scene.pump.card.phase === 3 ? Math.sqrt(3) : 1;
  return volts === undefined ? {} : { volts: roundTo(volts, 1), voltAmps: roundTo(lines * volts * amps, 0) };
}

/** The figures of a shift. */
export function shiftFigures(shift: AmpsShift, mayBeSupply: boolean): AmpsShiftFigures {
  return {
    nowA: shift.amps,
    normalA: shift.normal,
    deviation: shift.deviation,
    ...(!shift.isDrift && { runs: shift.runs }),
    supply: mayBeSupply ? 'possible' : shift.volts === undefined ? 'excluded' : 'compensated',
  };
}

/**
 * How much speaks for the supply where its voltage is measured: nothing, unless its effect on this
 * motor is hardly known yet.
 */
export function supplyWeight(shift: AmpsShift): number {
  return shift.supplyUncertainty > 0.01 ? 0.4 : 0;
}

/**
 * May the supply have done it? A shift under the limit may, where voltage is not measured; once it
 * was said either way the limit moves by a quarter, so that a shift at the limit is not said to be
 * one and the other by turns.
 */
export function mayBeSupply(scene: Scene, memory: ShiftMemory, shift: AmpsShift): boolean {
  if (shift.volts !== undefined || hasVolts(scene)) return false;
  const before = memory.maybeSupply;
  const limit = shift.limit * (before === true ? 1.25 : before === false ? 0.75 : 1);
  const may = Math.abs(shift.deviation) < limit;
  memory.maybeSupply = may;
  return may;
}

/** Is voltage measured on this pump? */
export function hasVolts(scene: Scene): boolean {
  return scene.well.minutes[scene.well.minutes.length - 1]?.pumps[scene.pump.index]?.volts !== undefined;
}
