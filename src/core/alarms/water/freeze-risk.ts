/**
 * The pump house nears frost: told at 40 F (4.4 C), urgent under 35 F (1.7 C) and falling (common
 * practice). One winter is one alarm: it goes only when it has been clearly warmer for a day. Where
 * the air sensor hangs outside it lives through frosts, and after a week of them says nothing more
 * until it has been warm for a week: it is not the pump house that it measures.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type CannotTell, type Evaluation } from '../evaluation.ts';
import { lastMinute, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const RAISE_BELOW_C = 4.4;
const URGENT_BELOW_C = 1.7;
const CLEAR_ABOVE_C = 6;
const MIN_FALL_C = 0.1;
/** Frosts that did no harm, of the last ten days, before the sensor is taken to hang outside. */
const HARMLESS_FROST_C = -1;
const MIN_HARMLESS_DAYS = 5;
const WINDOW_DAYS = 10;

interface FreezeMemory extends SinceMemory {
  /** The lowest air temperature of the day so far, and of each of the last ten days. */
  dayLow?: number;
  lows: number[];
}

export const freezeRisk: Watch<FreezeMemory> = {
  alarm: 'freeze-risk',
  scope: 'well',
  triggers: ['minute', 'day'],
  initialMemory: () => ({ lows: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: FreezeMemory): Evaluation {
  if (scene.trigger === 'day') return closeDay(memory);
  const minute = lastMinute(scene);
  const air = minute?.temperatureC;
  if (!minute || !air) return cannotTell('needs-temperature');
  memory.dayLow = roundTo(Math.min(memory.dayLow ?? air.mean, air.mean), 1);
  if (memory.lows.filter((low) => low < HARMLESS_FROST_C).length >= MIN_HARMLESS_DAYS)
    return forgetSince(memory);
  if (air.mean > CLEAR_ABOVE_C) return forgetSince(memory);
  if (air.mean >= RAISE_BELOW_C) return cannotTell('near-limit');
  const first =
    scene.well.minutes.find((earlier) => earlier.temperatureC !== undefined)?.temperatureC?.mean ?? air.mean;
  const isFalling = air.mean < first - MIN_FALL_C;
  const urgent = air.mean < URGENT_BELOW_C && isFalling;
  return {
    is: 'active',
    sinceMs: activeSince(memory, minute.atMs - MINUTE_MS),
    priority: urgent ? 'now' : 'soon',
    reason: 'air-near-freezing',
    figures: { airC: air.mean, isFalling },
    evidence: { temperatureC: roundTo(air.mean, 1), changeC: roundTo(air.mean - first, 1) },
    causes: weighCauses({ frozen: 1 }),
  };
}

function closeDay(memory: FreezeMemory): CannotTell {
  if (memory.dayLow !== undefined) memory.lows = [...memory.lows, memory.dayLow].slice(-WINDOW_DAYS);
  delete memory.dayLow;
  return cannotTell('not-this-trigger');
}
