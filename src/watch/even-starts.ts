/**
 * A tank that empties by itself between the fills, all day and all night. A loss so large leaves no quiet minutes to judge it by
 * (src/hydraulics/quiet.ts waits until a fill has cooled), but it starts the pump as evenly as a clock: what people draw shortens a rest, and
 * nothing lengthens one. So it is the longest rest of each hour that stays the same; people sleep, a garden and a trough have had enough, and then it grows.
 */
import { median } from '../baseline/robust.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { tankDrawdownL, tankOf } from '../hydraulics/tank.ts';
import { companyOf } from './company.ts';
import { fillOf, freshCycles, hasPressureCycle, isFresh, isWhole, listOf } from './facts.ts';
import type { LossScene, Memo, Scene } from './scene.ts';

const HOUR_MS = 3_600_000;
/** Two days and nights. */
const KEPT_H = 48;
/** Longer rests have quiet minutes, and are judged by those. */
const LONGEST_REST_S = 1800;
/** The longest rest of an hour lies so near to the middle of all: a switch and readings of 5 s scatter rests of minutes by some hundredths. */
const EVEN = 0.15;
/** Hours on end without such a rest: somebody waters, or draws without pause. */
const HOLE_H = 3;
/** Of the hours so many must have been heard. */
const HEARD_SHARE = 0.8;
const FEWEST_H = 3;
/** Fills under a loss take longer than others. Shorter ones are of a tank that has lost its air, whose litres nobody knows. */
const SHORT_FILL = 0.8;

export interface EvenStarts {
  sinceMs: number;
  /** Whole hours that it has lasted. */
  hours: number;
  /** The middle of the longest rests, s. */
  restS: number;
}

/** Keeps, of the cycle that has just ended, the rest before it: of each hour the longest, and how even the last hours were. */
export function evenStarts(scene: Scene, memo: Memo): EvenStarts | undefined {
  const { cycle } = scene;
  if (cycle && hasPressureCycle(scene.pump) && companyOf(scene).length === 0) noteRest(memo, cycle);
  return stretch(scene, memo);
}

function noteRest(memo: Memo, cycle: Cycle): void {
  if (cycle.restedS === undefined || !isWhole(cycle)) return;
  const hour = Math.floor(cycle.startedMs / HOUR_MS);
  const hours = listOf(memo, 'restHours');
  const rests = listOf(memo, 'longestRestsS');
  const last = hours.length - 1;
  if (hours[last] === hour) rests[last] = Math.max(rests[last]!, cycle.restedS);
  else {
    hours.push(hour);
    rests.push(cycle.restedS);
  }
  while (hours[0]! <= hour - KEPT_H) {
    hours.shift();
    rests.shift();
  }
  memo['restHours'] = hours;
  memo['longestRestsS'] = rests;
}

/** The hours up to now whose longest rests were alike; undefined where they are few, or the pump has come to rest. */
function stretch(scene: Scene, memo: Memo): EvenStarts | undefined {
  const hours = listOf(memo, 'restHours');
  const rests = listOf(memo, 'longestRestsS');
  const last = hours.length - 1;
  if (last < FEWEST_H || scene.atMs / HOUR_MS - hours[last]! > 1 + HOLE_H) return undefined;
  const middleS = median(rests.slice(-FEWEST_H))!;
  if (middleS > LONGEST_REST_S) return undefined;
  const even: number[] = [];
  let fromHour = hours[last]! + 1;
  for (let at = last; at >= 0; at--) {
    const restS = rests[at]!;
    if (fromHour - hours[at]! > 1 + HOLE_H || !isFresh(scene, hours[at]! * HOUR_MS)) break;
    if (restS > (1 + EVEN) * middleS) break;
    // An hour of draws without pause is a hole.
    if (restS < (1 - EVEN) * middleS) continue;
    even.push(restS);
    fromHour = hours[at]!;
  }
  const span = hours[last]! - fromHour + 1;
  if (even.length < FEWEST_H || even.length < HEARD_SHARE * span) return undefined;
  // The first hour and the last are both begun ones: together one.
  return { sinceMs: fromHour * HOUR_MS, hours: span - 1, restS: median(even)! };
}

/**
 * What the tank gave between cut-out and cut-in over such a rest (Boyle, src/hydraulics/tank.ts). Of what the pump delivers it is the share of the
 * time that the pump runs, whatever the tank holds: it takes as long for the loss to empty what the pump fills against it. Undefined where no pressure
 * was measured, or the fills have become short.
 */
export function lossOfStarts(scene: Scene, { restS }: EvenStarts): LossScene | undefined {
  const cycles = freshCycles(scene, 40);
  const cutInKpa = middle(cycles, 'cutInKpa');
  const cutOutKpa = middle(cycles, 'cutOutKpa');
  const ranS = middle(cycles, 'ranS');
  const fillS = fillOf(scene);
  if (cutInKpa === undefined || cutOutKpa === undefined || ranS === undefined || cutOutKpa <= cutInKpa)
    return undefined;
  if (fillS !== undefined && ranS < SHORT_FILL * fillS) return undefined;
  const { tank: onCard, altitudeM } = scene.well.card;
  const tank = tankOf(onCard, altitudeM);
  const anHour = 3600 / restS;
  return {
    ...(tank && { lPerH: tankDrawdownL(tank, { cutInKpa, cutOutKpa }) * anHour }),
    fallKpaPerH: (cutOutKpa - cutInKpa) * anHour,
    // Behind a valve a fill is throttled.
    ...(scene.pump.card.control === 'pressure-switch' && { share: ranS / (ranS + restS) }),
  };
}

function middle(cycles: readonly Cycle[], of: 'cutInKpa' | 'cutOutKpa' | 'ranS'): number | undefined {
  return median(cycles.flatMap((cycle) => cycle[of] ?? []));
}
