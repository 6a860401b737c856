/**
 * A tank that empties by itself between the fills, all day and all night. A loss so large leaves no
 * quiet minutes to judge it by (src/core/hydraulics/quiet-blocks.ts waits until a fill has cooled),
 * but it starts the pump as evenly as a clock: what people draw shortens a rest, and nothing
 * lengthens one. So it is the longest rest of each hour that stays the same; people sleep, a garden
 * and a trough have had enough, and then it grows.
 */
import { HOUR_MS } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { tankDrawdownL, tankOf } from '../../hydraulics/tank.ts';
import { peersOf } from '../pump-peers.ts';
import {
  normalFillS,
  recentCycles,
  hasPressureCycle,
  isAfterReset,
  isCompleteRun,
} from '../scene-queries.ts';
import type { LossScene, Scene } from '../scene.ts';

/** Two days and nights. */
const HISTORY_H = 48;
/** Longer rests have quiet minutes, and are judged by those. */
const MAX_REST_S = 1800;
/**
 * The longest rest of an hour lies so near to the middle of all: a switch and readings of 5 s
 * scatter rests of minutes by some hundredths.
 */
const REST_TOLERANCE = 0.15;
/** Hours on end without such a rest: somebody waters, or draws without pause. */
const MAX_GAP_H = 3;
/** Of the hours so many must have been heard. */
const MIN_HEARD_FRACTION = 0.8;
const MIN_H = 3;
/**
 * Fills under a loss take longer than others. Shorter ones are of a tank that has lost its air,
 * whose litres nobody knows.
 */
const MIN_FILL_RATIO = 0.8;

/**
 * The part of a watch's memory that holds the longest rest of each hour: hours since 1970, and the
 * rest in each of them, s.
 */
export interface RestMemory {
  restHours?: number[];
  longestRestsS?: number[];
}

export interface RegularStarts {
  sinceMs: number;
  /** Whole hours that it has lasted. */
  hours: number;
  /** The middle of the longest rests, s. */
  restS: number;
}

/**
 * Keeps, of the cycle that has just ended, the rest before it: of each hour the longest, and how
 * even the last hours were.
 */
export function regularStarts(scene: Scene, memory: RestMemory): RegularStarts | undefined {
  const { cycle } = scene;
  if (cycle && hasPressureCycle(scene.pump) && peersOf(scene).length === 0) recordRest(memory, cycle);
  return regularHours(scene, memory);
}

function recordRest(memory: RestMemory, cycle: Cycle): void {
  if (cycle.restedS === undefined || !isCompleteRun(cycle)) return;
  const hour = Math.floor(cycle.startedMs / HOUR_MS);
  const hours = memory.restHours ?? [];
  const rests = memory.longestRestsS ?? [];
  const last = hours.length - 1;
  if (hours[last] === hour) rests[last] = Math.max(rests[last]!, cycle.restedS);
  else {
    hours.push(hour);
    rests.push(cycle.restedS);
  }
  while (hours[0]! <= hour - HISTORY_H) {
    hours.shift();
    rests.shift();
  }
  memory.restHours = hours;
  memory.longestRestsS = rests;
}

/**
 * The hours up to now whose longest rests were alike; undefined where they are few, or the pump has
 * come to rest.
 */
function regularHours(scene: Scene, memory: RestMemory): RegularStarts | undefined {
  const hours = memory.restHours ?? [];
  const rests = memory.longestRestsS ?? [];
  const last = hours.length - 1;
  if (last < MIN_H || scene.atMs / HOUR_MS - hours[last]! > 1 + MAX_GAP_H) return undefined;
  const middleS = median(rests.slice(-MIN_H))!;
  if (middleS > MAX_REST_S) return undefined;
  const even: number[] = [];
  let fromHour = hours[last]! + 1;
  for (let at = last; at >= 0; at--) {
    const restS = rests[at]!;
    if (fromHour - hours[at]! > 1 + MAX_GAP_H || !isAfterReset(scene, hours[at]! * HOUR_MS)) break;
    if (restS > (1 + REST_TOLERANCE) * middleS) break;
    // An hour of draws without pause is a hole.
    if (restS < (1 - REST_TOLERANCE) * middleS) continue;
    even.push(restS);
    fromHour = hours[at]!;
  }
  const span = hours[last]! - fromHour + 1;
  if (even.length < MIN_H || even.length < MIN_HEARD_FRACTION * span) return undefined;
  // The first hour and the last are both begun ones: together one.
  return { sinceMs: fromHour * HOUR_MS, hours: span - 1, restS: median(even)! };
}

/**
 * What the tank gave between cut-out and cut-in over such a rest (Boyle,
 * src/core/hydraulics/tank.ts). Of what the pump delivers it is the share of the time that the pump
 * runs, whatever the tank holds: it takes as long for the loss to empty what the pump fills against
 * it. Undefined where no pressure was measured, or the fills have become short.
 */
export function lossFromStarts(scene: Scene, { restS }: RegularStarts): LossScene | undefined {
  const cycles = recentCycles(scene, 40);
  const cutInKpa = medianOf(cycles, 'cutInKpa');
  const cutOutKpa = medianOf(cycles, 'cutOutKpa');
  const ranS = medianOf(cycles, 'ranS');
  const fillS = normalFillS(scene);
  if (cutInKpa === undefined || cutOutKpa === undefined || ranS === undefined || cutOutKpa <= cutInKpa)
    return undefined;
  if (fillS !== undefined && ranS < MIN_FILL_RATIO * fillS) return undefined;
  const { tank: onCard, altitudeM } = scene.well.card;
  const tank = tankOf(onCard, altitudeM);
  const anHour = 3600 / restS;
  return {
    ...(tank && { lPerH: tankDrawdownL(tank, { cutInKpa, cutOutKpa }) * anHour }),
    fallKpaPerH: (cutOutKpa - cutInKpa) * anHour,
    // Behind a valve a fill is throttled.
    ...(scene.pump.card.control === 'pressure-switch' && { deliveryFraction: ranS / (ranS + restS) }),
  };
}

function medianOf(cycles: readonly Cycle[], field: 'cutInKpa' | 'cutOutKpa' | 'ranS'): number | undefined {
  return median(cycles.flatMap((cycle) => cycle[field] ?? []));
}
