/**
 * Starts too close together. What is too close follows from the tank: with drawdown D and pump flow
 * Q a fill without use takes D/Q, and no use, however awkward, makes starts come closer than four
 * of these (the worst is use at half the pump's flow: period 4D/Q). A well that starts more often
 * than half of that, with runs under half of its own shortest fills, has lost its drawdown.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { bouncedStarts, type SoundStartMemory } from '../pump/bounced-starts.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { reportsForGroup } from '../pump-peers.ts';
import { KPA_PER_PSI, normalFillS, recentCycles, usesPressure } from '../scene-queries.ts';
import { roundTo, toSignificant } from '../round.ts';
import { shortSleep } from './short-sleep.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const MIN_CYCLES = 6;
/** Against the shortest fills of this well. */
const MAX_RUN_RATIO = 0.5;
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
 * Runs that cross less than this share of the band end for another reason than a tank that is full.
 */
const MIN_BAND_FRACTION = 0.5;
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
  if (close === undefined) return cannotTell(fillS === undefined ? 'learning' : 'too-few-runs');
  return close.length === 0 ? CLEAR : finding(scene, close, fillS);
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
    causes: causesOf(scene, close, fraction),
  };
}

/** The middle of the bands that these runs crossed, kPa. */
function medianBandKpa(close: readonly Cycle[]): number | undefined {
  return median(
    close.flatMap((c) =>
      c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
    ),
  );
}

/** Of the band between this switch's points. */
function bandFraction(scene: Scene, close: readonly Cycle[]): number | undefined {
  const cutIn = scene.pump.pinned?.cutInKpa?.median ?? scene.well.card.switch.cutInKpa;
  const cutOut = scene.pump.pinned?.cutOutKpa?.median ?? scene.well.card.switch.cutOutKpa;
  const band = medianBandKpa(close);
  if (cutIn === undefined || cutOut === undefined || band === undefined || cutOut <= cutIn) return undefined;
  return band / (cutOut - cutIn);
}

function endsAtCutOut(scene: Scene, close: readonly Cycle[]): boolean {
  const cutOut = scene.pump.pinned?.cutOutKpa?.median ?? scene.well.card.switch.cutOutKpa;
  const ends = median(close.flatMap((c) => c.cutOutKpa ?? []));
  return ends !== undefined && cutOut !== undefined && ends > cutOut - 2 * KPA_PER_PSI;
}

/**
 * A whole band crossed in no time is a tank without air; a band that is not crossed is the switch
 * or its nipple.
 */
function causesOf(scene: Scene, close: readonly Cycle[], fraction: number | undefined): Active['causes'] {
  const band = medianBandKpa(close);
  if (!usesPressure(scene.pump)) return weighCauses({ 'switch-chatter': 0.8, 'overload-tripping': 0.2 });
  if (
    fraction !== undefined &&
    band !== undefined &&
    fraction < MIN_BAND_FRACTION &&
    band < 12 * KPA_PER_PSI
  ) {
    // Runs that end where they should and start too soon: with more air than cut-in the tank is
    // empty before, and pressure drops from its charge to cut-in between two readings.
    if (endsAtCutOut(scene, close))
      return weighCauses({
        'tank-overcharged': 0.4,
        'switch-out-of-set': 0.15,
        'switch-chatter': 0.15,
        'blocked-nipple': 0.15,
        'tank-air-lost': 0.15,
      });
    return weighCauses({
      'switch-chatter': 0.4,
      'blocked-nipple': 0.3,
      'check-valve': 0.15,
      'tank-air-lost': 0.15,
    });
  }
  return weighCauses({
    'tank-air-lost': 0.4,
    'bladder-burst': 0.4,
    'blocked-nipple': 0.1,
    'switch-chatter': 0.1,
  });
}
