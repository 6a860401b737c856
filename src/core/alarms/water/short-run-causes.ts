/**
 * What may be behind runs that are too short, by where they begin and end and where the tank stood
 * meanwhile.
 */
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { Active } from '../evaluation.ts';
import { KPA_PER_PSI, normalFillS, usesPressure } from '../scene-queries.ts';
import type { Scene } from '../scene.ts';
import { meanBandLevel } from './tank-level.ts';
import { weighCauses } from '../weigh-causes.ts';

/** A run is short against the shortest fills of this well. */
export const MAX_RUN_RATIO = 0.5;
/**
 * Runs that cross less than this share of the band end for another reason than a tank that is full.
 */
const MIN_BAND_FRACTION = 0.5;
/**
 * A sawtooth over the band stands at half of it; under this share the tank was not filled at all.
 */
const NOT_FILLED_LEVEL = 0.25;

/** The middle of the bands that these runs crossed, kPa. */
function medianBandKpa(close: readonly Cycle[]): number | undefined {
  return median(
    close.flatMap((c) =>
      c.cutInKpa !== undefined && c.cutOutKpa !== undefined ? [c.cutOutKpa - c.cutInKpa] : [],
    ),
  );
}

/** Of the band between this switch's points. */
export function bandFraction(scene: Scene, close: readonly Cycle[]): number | undefined {
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

/** When the short runs began that these are the last of. */
function firstShortMs(scene: Scene, close: readonly Cycle[]): number {
  const maxS = MAX_RUN_RATIO * (normalFillS(scene) ?? Infinity);
  const fill = scene.pump.cycles.findLast(({ ranS }) => ranS >= maxS);
  const first = scene.pump.cycles.find(({ startedMs }) => startedMs > (fill?.startedMs ?? -Infinity));
  return Math.min(close[0]!.startedMs, first?.startedMs ?? Infinity);
}

/**
 * A whole band crossed in no time is a tank without air; a band that is not crossed, or a tank that
 * was not filled by these runs, is the switch or its nipple.
 */
export function causesOfShortRuns(
  scene: Scene,
  close: readonly Cycle[],
  fraction: number | undefined,
): Active['causes'] {
  const band = medianBandKpa(close);
  if (!usesPressure(scene.pump)) return weighCauses({ 'switch-chatter': 0.8, 'overload-tripping': 0.2 });
  const level = meanBandLevel(scene, firstShortMs(scene, close));
  if (level !== undefined && level < NOT_FILLED_LEVEL)
    return weighCauses({ 'switch-chatter': 0.55, 'blocked-nipple': 0.3, 'overload-tripping': 0.15 });
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
