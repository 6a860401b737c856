/**
 * The pump house nears frost: told at 40 F (4.4 C), urgent under 35 F (1.7 C) and falling (common practice). One winter is one alarm:
 * it goes only when it has been clearly warmer for a day. Where the air sensor hangs outside it lives through frosts, and after
 * a week of them says nothing more until it has been warm for a week: it is not the pump house that it measures.
 */
import { DAY_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { lastMinute, memoryList, memoryNumber, activeSince, clearActive } from '../scene-queries.ts';
import { formatTemperature, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const RAISE_BELOW_C = 4.4;
const URGENT_BELOW_C = 1.7;
const CLEAR_ABOVE_C = 6;
const MIN_FALL_C = 0.1;
/** Frosts that did no harm, of the last ten days, before the sensor is taken to hang outside. */
const HARMLESS_FROST_C = -1;
const MIN_HARMLESS_DAYS = 5;
const WINDOW_DAYS = 10;

export const freezeRisk: Watch = {
  alarm: 'freeze-risk',
  scope: 'well',
  triggers: ['minute', 'day'],
  onDelayS: 600,
  offDelayS: DAY_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  if (scene.trigger === 'day') return closeDay(memo);
  const minute = lastMinute(scene);
  const air = minute?.temperatureC;
  if (!minute || !air) return undefined;
  memo['dayLow'] = roundTo(Math.min(memoryNumber(memo, 'dayLow', air.mean), air.mean), 1);
  if (memoryList(memo, 'lows').filter((low) => low < HARMLESS_FROST_C).length >= MIN_HARMLESS_DAYS)
    return clearActive(memo);
  if (air.mean > CLEAR_ABOVE_C) return clearActive(memo);
  if (air.mean >= RAISE_BELOW_C) return undefined;
  const first =
    scene.well.minutes.find((earlier) => earlier.temperatureC !== undefined)?.temperatureC?.mean ?? air.mean;
  const falling = air.mean < first - MIN_FALL_C;
  const urgent = air.mean < URGENT_BELOW_C && falling;
  return {
    sinceMs: activeSince(memo, minute.atMs - MINUTE_MS),
    priority: urgent ? 'now' : 'soon',
    why: `The air at the pump is ${formatTemperature(air.mean)}${falling ? ' and falling' : ''}: pipes and the switch's line freeze from 32 F (0 C).`,
    evidence: { temperatureC: roundTo(air.mean, 1), changeC: roundTo(air.mean - first, 1) },
    causes: weighCauses({ frozen: 1 }),
  };
}

function closeDay(memo: WatchMemory): undefined {
  const low = memoryNumber(memo, 'dayLow', NaN);
  if (Number.isFinite(low)) memo['lows'] = [...memoryList(memo, 'lows'), low].slice(-WINDOW_DAYS);
  delete memo['dayLow'];
  return undefined;
}
