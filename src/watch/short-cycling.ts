/**
 * Starts too close together. What is too close follows from the tank: with drawdown D and pump flow Q a fill without use takes
 * D/Q, and no use, however awkward, makes starts come closer than four of these (the worst is use at half the pump's flow: period
 * 4D/Q). A well that starts more often than half of that, with runs under half of its own shortest fills, has lost its drawdown.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { bouncedStarts } from './bounced-starts.ts';
import { speaksForAll } from './company.ts';
import { PSI, fillOf, freshCycles, usesPressure } from './facts.ts';
import { figures, sayTime, tidy } from './say.ts';
import { shortSleep } from './short-sleep.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const CYCLES = 6;
/** Against the shortest fills of this well. */
const RUN_SHARE = 0.5;
const PERIOD_FILLS = 2;
/** Runs this short are wrong whatever the rests between them. */
const MUCH_TOO_SHORT_SHARE = 0.3;
/** Chatter: starts within a minute, as alarm practice bounds it (three activations in a minute), for tanks whose fill takes longer. */
const CHATTER_STARTS = 4;
const CHATTER_S = 60;
const CHATTER_FILL_S = 20;
/** Before anything was learnt: so many starts in a row, this close and short, for a tank that is known not to be tiny. */
const UNKNOWN_CYCLES = 12;
const UNKNOWN_PERIOD_S = 45;
const UNKNOWN_RUN_S = 15;
const UNKNOWN_TANK_L = 60;
/** Runs that cross less than this share of the band end for another reason than a tank that is full. */
const HALF_BAND = 0.5;
/** Without a start for so long the starts are no longer close. */
const QUIET_S = 7200;

export const shortCycling: Watch = {
  alarm: 'short-cycling',
  each: 'pump',
  on: ['cycle', 'minute'],
  onDelayS: 0,
  offDelayS: 43_200,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  const found = tooClose(scene);
  // What the starts of one run say is asked of every pump, also of one that does not speak for the tank.
  return found ?? bouncedStarts(scene, memo) ?? found;
}

function tooClose(scene: Scene): Finding | null | undefined {
  if (scene.why === 'minute') return afterQuiet(scene);
  if (!speaksForAll(scene)) return undefined;
  const { control } = scene.pump.card;
  if (control === 'variable-speed') return shortSleep(scene);
  const even = control === 'constant-pressure-valve' ? shortSleep(scene) : undefined;
  if (even) return even;
  const cycles = freshCycles(
    scene,
    UNKNOWN_CYCLES,
    (cycle) => !cycle.flags.includes('failed-start') && !cycle.flags.includes('clock-step'),
  );
  const fillS = fillOf(scene);
  // A store has no tank whose water could be short; but contacts that chatter burn there too.
  if (!usesPressure(scene.pump)) {
    const chatter = chatters(cycles, fillS ?? 0);
    return chatter ? finding(scene, chatter, fillS) : undefined;
  }
  const close = fillS === undefined ? closeUnknown(scene, cycles) : closeKnown(cycles, fillS);
  if (close === undefined) return undefined;
  return close.length === 0 ? null : finding(scene, close, fillS);
}

/** Between the starts nothing new is known, until there were none for long. */
function afterQuiet(scene: Scene): null | undefined {
  const since = scene.pump.restSinceMs;
  return since !== undefined && scene.atMs - since > QUIET_S * 1000 ? null : undefined;
}

/** The cycles that came too close; empty where they did not; undefined where it is too early to say. */
function closeKnown(cycles: readonly Cycle[], fillS: number): readonly Cycle[] | undefined {
  const chatter = chatters(cycles, fillS);
  if (chatter) return chatter;
  if (cycles.length < CYCLES) return undefined;
  const last = cycles.slice(-CYCLES);
  const ran = median(last.map((cycle) => cycle.ranS)) ?? 0;
  const period = median(periodsS(last)) ?? Infinity;
  if (ran < RUN_SHARE * fillS && period < PERIOD_FILLS * fillS) return last;
  const longer = cycles.slice(-10);
  const ranLonger = median(longer.map((cycle) => cycle.ranS)) ?? 0;
  return longer.length >= 10 && ranLonger < MUCH_TOO_SHORT_SHARE * fillS ? longer : [];
}

function closeUnknown(scene: Scene, cycles: readonly Cycle[]): readonly Cycle[] | undefined {
  if ((scene.well.card.tank?.volumeL ?? 0) < UNKNOWN_TANK_L || cycles.length < UNKNOWN_CYCLES)
    return undefined;
  const ran = median(cycles.map((cycle) => cycle.ranS)) ?? 0;
  const period = median(periodsS(cycles)) ?? Infinity;
  return ran < UNKNOWN_RUN_S && period < UNKNOWN_PERIOD_S ? cycles : [];
}

/** Starts within a minute, where a fill takes longer than that many could. */
function chatters(cycles: readonly Cycle[], fillS: number): readonly Cycle[] | undefined {
  if (fillS < CHATTER_FILL_S || cycles.length < CHATTER_STARTS) return undefined;
  const last = cycles.slice(-CHATTER_STARTS);
  return spanS(last) < CHATTER_S ? last : undefined;
}

function spanS(cycles: readonly Cycle[]): number {
  return (cycles[cycles.length - 1]!.startedMs - cycles[0]!.startedMs) / 1000;
}

function periodsS(cycles: readonly Cycle[]): number[] {
  return cycles.slice(1).map((cycle, at) => (cycle.startedMs - cycles[at]!.startedMs) / 1000);
}

function finding(scene: Scene, close: readonly Cycle[], fillS: number | undefined): Finding {
  const inS = (close[close.length - 1]!.stoppedMs - close[0]!.startedMs) / 1000;
  const ran = median(close.map((cycle) => cycle.ranS)) ?? 0;
  const share = bandShare(scene, close);
  const usual = fillS === undefined ? '' : `; a fill here takes ${sayTime(fillS)}`;
  return {
    sinceMs: close[0]!.startedMs,
    why: `${close.length} starts in ${sayTime(inS)}, with runs of ${sayTime(ran)}${usual}.`,
    evidence: {
      starts: close.length,
      inS: tidy(inS, 0),
      ranS: tidy(ran, 1),
      ...(fillS !== undefined && { normalRanS: tidy(fillS, 1) }),
      startsAnHour: Number(figures((close.length * 3600) / inS, 3)),
      ...(share !== undefined && { bandShare: tidy(share) }),
    },
    causes: causesOf(scene, close, share),
  };
}

/** The middle of the bands that these runs crossed, kPa. */
function bandOf(close: readonly Cycle[]): number | undefined {
  return median(
    close.flatMap((c) =>
      c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
    ),
  );
}

/** Of the band between this switch's points. */
function bandShare(scene: Scene, close: readonly Cycle[]): number | undefined {
  const cutIn = scene.pump.pinned?.cutInKpa?.median ?? scene.well.card.switch.cutInKpa;
  const cutOut = scene.pump.pinned?.cutOutKpa?.median ?? scene.well.card.switch.cutOutKpa;
  const band = bandOf(close);
  if (cutIn === undefined || cutOut === undefined || band === undefined || cutOut <= cutIn) return undefined;
  return band / (cutOut - cutIn);
}

function endsAtCutOut(scene: Scene, close: readonly Cycle[]): boolean {
  const cutOut = scene.pump.pinned?.cutOutKpa?.median ?? scene.well.card.switch.cutOutKpa;
  const ends = median(close.flatMap((c) => c.cutOutKpa ?? []));
  return ends !== undefined && cutOut !== undefined && ends > cutOut - 2 * PSI;
}

/** A whole band crossed in no time is a tank without air; a band that is not crossed is the switch or its nipple. */
function causesOf(scene: Scene, close: readonly Cycle[], share: number | undefined): Finding['causes'] {
  const band = bandOf(close);
  if (!usesPressure(scene.pump)) return weigh({ 'switch-chatter': 0.8, 'overload-tripping': 0.2 });
  if (share !== undefined && band !== undefined && share < HALF_BAND && band < 12 * PSI) {
    // Runs that end where they should and start too soon: with more air than cut-in the tank is empty before, and pressure drops from its charge
    // to cut-in between two readings.
    if (endsAtCutOut(scene, close))
      return weigh({
        'tank-overcharged': 0.4,
        'switch-out-of-set': 0.15,
        'switch-chatter': 0.15,
        'blocked-nipple': 0.15,
        'tank-air-lost': 0.15,
      });
    return weigh({
      'switch-chatter': 0.4,
      'blocked-nipple': 0.3,
      'check-valve': 0.15,
      'tank-air-lost': 0.15,
    });
  }
  return weigh({ 'tank-air-lost': 0.4, 'bladder-burst': 0.4, 'blocked-nipple': 0.1, 'switch-chatter': 0.1 });
}
