/**
 * A run whose start changes nothing of the pressure, at full current: the pump lifts water, and
 * none of it comes up. The drop pipe has parted, the pump has come off it, or a line broke between
 * well and gauge. Whoever draws water makes pressure fall before the start; here it stood nearly
 * still, so that any delivery would have shown. Where fields are watered a valve may open with the
 * start, and this is not asked.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { drawsForHours } from '../../domain/uses.ts';
import type { Active } from '../evaluation.ts';
import { peersOf } from '../pump-peers.ts';
import { detectGaugeDrop } from '../sensing/gauge-drop.ts';
import {
  KPA_PER_PSI,
  lastMinutes,
  normalAmpsOf,
  normalCutInKpa,
  normalFillS,
  ranThroughout,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { OpenRun, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** A fill of a common tank crosses the whole band in that time; argued, not measured. */
const RUN_MINUTES = 3;
/** By then a fill has crossed half of the band. Slower wells wait for that. */
const MIN_FILL_FRACTION = 0.5;
/** A switch and a gauge scatter by a psi; a fill of three minutes brings ten and more. */
const MAX_RISE_KPA = KPA_PER_PSI;
/**
 * What starts higher is no fill of this switch; after hours without water taps stand open, and
 * pressure begins far lower.
 */
const MAX_OFF_CUT_IN_KPA = 4 * KPA_PER_PSI;
/** Under this far below its start somebody draws more than the pump may lift. */
const MAX_FALL_KPA = 3 * KPA_PER_PSI;
/** Half a gallon a minute takes about this from a tank of 44 gal in a minute (Boyle). */
const MAX_FALL_BEFORE_KPA = KPA_PER_PSI;
/** A pump that lifts little or nothing draws less. */
const MIN_AMPS_RATIO = 0.97;
/** With less over the intake it may be air. */
const MIN_LEVEL_M = 3;

export function withoutRiseFinding(scene: Scene, run: OpenRun): Active | undefined {
  const usual = normalAmpsOf(scene);
  const cutIn = normalCutInKpa(scene);
  if (!isAsked(scene) || usual === undefined || run.cutInKpa === undefined || run.highKpa === undefined)
    return undefined;
  if (cutIn === undefined || Math.abs(run.cutInKpa - cutIn) > MAX_OFF_CUT_IN_KPA) return undefined;
  if (run.ranS < Math.max(RUN_MINUTES * 60, MIN_FILL_FRACTION * (normalFillS(scene) ?? Infinity)))
    return undefined;
  if ((run.amps ?? 0) < MIN_AMPS_RATIO * usual || run.highKpa > run.cutInKpa + MAX_RISE_KPA) return undefined;
  if (!stayedAtStart(scene, run.cutInKpa) || !wasStillBefore(scene, run)) return undefined;
  const kpa = scene.well.minutes[scene.well.minutes.length - 1]!.kpa!.mean;
  return {
    is: 'active',
    sinceMs: run.startedMs,
    reason: 'run-without-rise',
    figures: { ranS: run.ranS, kpa, cutInKpa: run.cutInKpa, amps: run.amps ?? 0 },
    evidence: {
      ranS: roundTo(run.ranS, 0),
      kpa: roundTo(kpa, 0),
      cutInKpa: roundTo(run.cutInKpa, 0),
      amps: roundTo(run.amps ?? 0),
    },
    causes: weighCauses({
      'drop-pipe-leak': 0.5,
      'pitless-leak': 0.1,
      'broken-pipe': 0.15,
      'open-tap': 0.1,
      'transducer-fault': 0.1,
      'wrong-rotation': scene.pump.card.phase === 3 ? 0.1 : 0,
    }),
  };
}

function isAsked(scene: Scene): boolean {
  const { control, kind } = scene.pump.card;
  const { uses } = scene.well.card;
  const field = drawsForHours(uses) || uses.includes('stock');
  if (control !== 'pressure-switch' || kind === 'positive-displacement' || field) return false;
  const stuck = scene.well.channels.some(({ channel, flat }) => channel.endsWith('pressure') && flat);
  return !stuck && peersOf(scene).length === 0 && !detectGaugeDrop(scene);
}

function stayedAtStart(scene: Scene, cutInKpa: number): boolean {
  const minutes = lastMinutes(scene, RUN_MINUTES);
  if (!minutes || !ranThroughout(scene, minutes)) return false;
  return minutes.every(
    ({ kpa, levelM }) =>
      kpa &&
      kpa.low > cutInKpa - MAX_FALL_KPA &&
      kpa.high < cutInKpa + MAX_RISE_KPA &&
      (levelM === undefined || levelM.mean > MIN_LEVEL_M),
  );
}

/** Over the two minutes before the start, and to the end of them. */
function wasStillBefore({ well }: Scene, run: OpenRun): boolean {
  const before = well.minutes.filter(({ atMs }) => atMs <= run.startedMs).slice(-2);
  const [first, last] = before;
  if (!first?.kpa || !last?.kpa || run.startedMs - last.atMs >= MINUTE_MS) return false;
  return first.kpa.mean - Math.min(last.kpa.last, run.cutInKpa ?? 0) <= MAX_FALL_BEFORE_KPA;
}
