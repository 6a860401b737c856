/**
 * Starts too close together. What is too close follows from the tank: with drawdown D and pump flow
 * Q a fill without use takes D/Q, and no use, however awkward, makes starts come closer than four
 * of these (the worst is use at half the pump's flow: period 4D/Q). A well that starts more often
 * than half of that, with runs under half of its own shortest fills, has lost its drawdown.
 */
import { DAY_MS, HOUR_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { bouncedStarts, type SoundStartMemory } from '../pump/bounced-starts.ts';
import { interruptedStarts } from '../electric/interrupted-starts.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { reportsForGroup } from '../pump-peers.ts';
import { normalFillS, recentCycles, usesPressure } from '../scene-queries.ts';
import { roundTo, toSignificant } from '../round.ts';
import { shortSleep } from './short-sleep.ts';
import type { Scene, Watch } from '../scene.ts';
import { MAX_RUN_RATIO, bandFraction, causesOfShortRuns } from './short-run-causes.ts';

/**
 * Half of the four fills that the worst use makes, as the head of this file says. Six starts in a
 * row, since two or three may be close by chance (argued, not measured).
 */
const MIN_CYCLES = 6;
const MAX_PERIOD_FILLS = 2;
/** Runs this short are wrong whatever the rests between them. */
const VERY_SHORT_RATIO = 0.3;
/**
 * Chatter: starts within a minute, as alarm practice bounds it (three activations in a minute), for
 * tanks whose fill takes longer.
 */
const CHATTER_STARTS = 4;
const MAX_CHATTER_S = 60;
const MIN_CHATTER_FILL_S = 20;
/**
 * Before anything was learnt: so many starts in a row, this close and short, for a tank that is
 * known not to be tiny.
 */
const UNLEARNED_MIN_CYCLES = 12;
const UNLEARNED_MAX_PERIOD_S = 45;
const UNLEARNED_MAX_RUN_S = 15;
const UNLEARNED_MIN_TANK_L = 60;
/**
 * Whatever is learned, a motor needs a minute of running to carry off the heat of its start, and
 * two from 2 hp on; tanks are sized for that (a motor maker's application manual; The Driller). A
 * tank without air on the day the clamp goes on must not become normal. So many starts a day do
 * harm; fewer are as short on a tank whose size is its owner's choice.
 */
const MIN_MEDIAN_RUN_S = 60;
const MIN_MEDIAN_RUN_LARGE_S = 120;
const LARGE_MOTOR_W = 1450;
const SHORT_RUNS = 30;
const MAX_SHORT_RUNS_MS = DAY_MS;
/** Without a start for so long the starts are no longer close. */
const CLEAR_AFTER_S = 7200;

export const shortCycling: Watch<SoundStartMemory> = {
  alarm: 'short-cycling',
  scope: 'pump',
  triggers: ['cycle', 'minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: SoundStartMemory): Evaluation {
  const interrupted = scene.trigger === 'cycle' ? interruptedStarts(scene) : undefined;
  if (interrupted) return interrupted;
  const found = evaluateStarts(scene);
  // What the starts of one run say is asked of every pump, also of one that does not speak for the
  // tank.
  return found.is === 'active' ? found : (bouncedStarts(scene, memory) ?? found);
}

function evaluateStarts(scene: Scene): Evaluation {
  if (scene.trigger === 'minute') return clearAfterQuiet(scene);
  if (!reportsForGroup(scene)) return cannotTell('other-pump');
  const { control } = scene.pump.card;
  if (control === 'variable-speed') return shortSleep(scene);
  const even = control === 'constant-pressure-valve' ? shortSleep(scene) : undefined;
  if (even?.is === 'active') return even;
  const cycles = recentCycles(
    scene,
    UNLEARNED_MIN_CYCLES,
    (cycle) => !cycle.flags.includes('failed-start') && !cycle.flags.includes('clock-step'),
  );
  const fillS = normalFillS(scene);
  // A store has no tank whose water could be short; but contacts that chatter burn there too.
  if (!usesPressure(scene.pump)) {
    const chatter = chatterCycles(cycles, fillS ?? 0);
    if (chatter) return finding(scene, chatter, fillS);
    return cannotTell(fillS === undefined ? 'learning' : 'not-this-trigger');
  }
  const close = fillS === undefined ? closeCyclesUnlearned(scene, cycles) : closeCyclesLearned(cycles, fillS);
  if (close !== undefined && close.length > 0) return finding(scene, withoutFills(close, fillS), fillS);
  const short = runsTooShortForMotor(scene);
  if (short) return shortRunsFinding(scene, short);
  return close === undefined ? cannotTell(fillS === undefined ? 'learning' : 'too-few-runs') : CLEAR;
}

/** It began with the first short run: the fills before it were sound. */
function withoutFills(close: readonly Cycle[], fillS: number | undefined): readonly Cycle[] {
  const from = close.findIndex(({ ranS }) => ranS < MAX_RUN_RATIO * (fillS ?? Infinity));
  return close.slice(Math.max(0, from));
}

/** Where the card names the tank its own size is the measure (./tank-air-lost.ts). */
function runsTooShortForMotor(scene: Scene): { runs: readonly Cycle[]; minS: number } | undefined {
  const { control, motorW = 0 } = scene.pump.card;
  if (control !== 'pressure-switch' || scene.well.card.tank?.volumeL !== undefined) return undefined;
  const runs = recentCycles(scene, SHORT_RUNS);
  const minS = motorW >= LARGE_MOTOR_W ? MIN_MEDIAN_RUN_LARGE_S : MIN_MEDIAN_RUN_S;
  if (runs.length < SHORT_RUNS || scene.atMs - runs[0]!.startedMs > MAX_SHORT_RUNS_MS) return undefined;
  if (median(runs.map(({ ranS }) => ranS))! >= minS) return undefined;
  return { runs: runs.slice(runs.findIndex(({ ranS }) => ranS < minS)), minS };
}

/** Between the starts nothing new is known, until there were none for long. */
function clearAfterQuiet(scene: Scene): Evaluation {
  const since = scene.pump.restSinceMs;
  return since !== undefined && scene.atMs - since > CLEAR_AFTER_S * 1000
    ? CLEAR
    : cannotTell('not-this-trigger');
}

/**
 * The cycles that came too close; empty where they did not; undefined where it is too early to say.
 */
function closeCyclesLearned(cycles: readonly Cycle[], fillS: number): readonly Cycle[] | undefined {
  const chatter = chatterCycles(cycles, fillS);
  if (chatter) return chatter;
  if (cycles.length < MIN_CYCLES) return undefined;
  const last = cycles.slice(-MIN_CYCLES);
  const ran = median(last.map((cycle) => cycle.ranS)) ?? 0;
  const period = median(periodsS(last)) ?? Infinity;
  if (ran < MAX_RUN_RATIO * fillS && period < MAX_PERIOD_FILLS * fillS) return last;
  const longer = cycles.slice(-10);
  const ranLonger = median(longer.map((cycle) => cycle.ranS)) ?? 0;
  return longer.length >= 10 && ranLonger < VERY_SHORT_RATIO * fillS ? longer : [];
}

function closeCyclesUnlearned(scene: Scene, cycles: readonly Cycle[]): readonly Cycle[] | undefined {
  if ((scene.well.card.tank?.volumeL ?? 0) < UNLEARNED_MIN_TANK_L || cycles.length < UNLEARNED_MIN_CYCLES)
    return undefined;
  const ran = median(cycles.map((cycle) => cycle.ranS)) ?? 0;
  const period = median(periodsS(cycles)) ?? Infinity;
  return ran < UNLEARNED_MAX_RUN_S && period < UNLEARNED_MAX_PERIOD_S ? cycles : [];
}

/** Starts within a minute, where a fill takes longer than that many could. */
function chatterCycles(cycles: readonly Cycle[], fillS: number): readonly Cycle[] | undefined {
  if (fillS < MIN_CHATTER_FILL_S || cycles.length < CHATTER_STARTS) return undefined;
  const last = cycles.slice(-CHATTER_STARTS);
  return spanS(last) < MAX_CHATTER_S ? last : undefined;
}

function spanS(cycles: readonly Cycle[]): number {
  return (cycles[cycles.length - 1]!.startedMs - cycles[0]!.startedMs) / 1000;
}

function periodsS(cycles: readonly Cycle[]): number[] {
  return cycles.slice(1).map((cycle, at) => (cycle.startedMs - cycles[at]!.startedMs) / 1000);
}

function finding(scene: Scene, close: readonly Cycle[], fillS: number | undefined): Active {
  const inS = (close[close.length - 1]!.stoppedMs - close[0]!.startedMs) / 1000;
  const ran = median(close.map((cycle) => cycle.ranS)) ?? 0;
  const fraction = bandFraction(scene, close);
  return {
    is: 'active',
    sinceMs: close[0]!.startedMs,
    reason: 'starts-too-close',
    figures: { starts: close.length, inS, ranS: ran, ...(fillS !== undefined && { fillS }) },
    evidence: {
      starts: close.length,
      inS: roundTo(inS, 0),
      ranS: roundTo(ran, 1),
      ...(fillS !== undefined && { normalRanS: roundTo(fillS, 1) }),
      startsAnHour: toSignificant((close.length * HOUR_S) / inS, 3),
      ...(fraction !== undefined && { bandShare: roundTo(fraction) }),
    },
    causes: causesOfShortRuns(scene, close, fraction),
  };
}

function shortRunsFinding(scene: Scene, { runs, minS }: { runs: readonly Cycle[]; minS: number }): Active {
  const inS = (runs[runs.length - 1]!.stoppedMs - runs[0]!.startedMs) / 1000;
  const ranS = median(runs.map((run) => run.ranS)) ?? 0;
  const fraction = bandFraction(scene, runs);
  return {
    is: 'active',
    sinceMs: runs[0]!.startedMs,
    reason: 'runs-too-short',
    figures: { starts: runs.length, inS, ranS, minS },
    evidence: {
      starts: runs.length,
      inS: roundTo(inS, 0),
      ranS: roundTo(ranS, 1),
      leastS: minS,
      ...(fraction !== undefined && { bandShare: roundTo(fraction) }),
    },
    causes: causesOfShortRuns(scene, runs, fraction),
  };
}
