/**
 * The pump house nears frost: told at 40 F (4.4 C), urgent under 35 F (1.7 C) and falling (common practice). One winter is one alarm:
 * it goes only when it has been clearly warmer for a day. Where the air sensor hangs outside it lives through frosts, and after
 * a week of them says nothing more until it has been warm for a week: it is not the pump house that it measures.
 */
import { lastMinute, listOf, numberOf, standingSince, standsNot } from './facts.ts';
import { sayTemperature, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const NEAR_C = 4.4;
const URGENT_C = 1.7;
const WARM_C = 6;
const FALLING_C = 0.1;
/** Frosts that did no harm, of the last ten days, before the sensor is taken to hang outside. */
const FROST_C = -1;
const HARMLESS_DAYS = 5;
const DAYS = 10;

export const freezeRisk: Watch = {
  alarm: 'freeze-risk',
  each: 'well',
  on: ['minute', 'day'],
  onDelayS: 600,
  offDelayS: 86_400,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  if (scene.why === 'day') return endDay(memo);
  const minute = lastMinute(scene);
  const air = minute?.temperatureC;
  if (!minute || !air) return undefined;
  memo['dayLow'] = tidy(Math.min(numberOf(memo, 'dayLow', air.mean), air.mean), 1);
  if (listOf(memo, 'lows').filter((low) => low < FROST_C).length >= HARMLESS_DAYS) return standsNot(memo);
  if (air.mean > WARM_C) return standsNot(memo);
  if (air.mean >= NEAR_C) return undefined;
  const first =
    scene.well.minutes.find((earlier) => earlier.temperatureC !== undefined)?.temperatureC?.mean ?? air.mean;
  const falling = air.mean < first - FALLING_C;
  const urgent = air.mean < URGENT_C && falling;
  return {
    sinceMs: standingSince(memo, minute.atMs - 60_000),
    priority: urgent ? 'now' : 'soon',
    why: `The air at the pump is ${sayTemperature(air.mean)}${falling ? ' and falling' : ''}: pipes and the switch's line freeze from 32 F (0 C).`,
    evidence: { temperatureC: tidy(air.mean, 1), changeC: tidy(air.mean - first, 1) },
    causes: weigh({ frozen: 1 }),
  };
}

function endDay(memo: Memo): undefined {
  const low = numberOf(memo, 'dayLow', NaN);
  if (Number.isFinite(low)) memo['lows'] = [...listOf(memo, 'lows'), low].slice(-DAYS);
  delete memo['dayLow'];
  return undefined;
}
