/**
 * The pump house nears frost: told at 40 F (4.4 C), urgent under 35 F (1.7 C) and falling (common
 * practice), and at freezing whether it falls or not. Pipes in insulation freeze near 20 F of
 * outdoor air (Univ. of Illinois Building Research Council, from memory): the rest is time to act.
 * One winter is one alarm: it goes only when it has been clearly warmer for a day. Whether the
 * sensor hangs outside is never guessed: a pump house kept by heat tape lives through frosts, and
 * bursts on the day the tape fails. The card says so.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type Evaluation } from '../evaluation.ts';
import { lastMinute, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * As the head of this file says. It goes at 6 °C (43 F), over any swing of a mild day about the
 * limit; a fall under 0.1 °C is a thermometer's last digit (argued, not measured).
 */
const RAISE_BELOW_C = 4.4;
const URGENT_BELOW_C = 1.7;
const FREEZING_C = 0;
const CLEAR_ABOVE_C = 6;
const MIN_FALL_C = 0.1;

export const freezeRisk: Watch<SinceMemory> = {
  alarm: 'freeze-risk',
  scope: 'well',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: SinceMemory): Evaluation {
  const minute = lastMinute(scene);
  const air = minute?.temperatureC;
  if (!minute || !air) return cannotTell('needs-temperature');
  if (scene.well.card.airSensor === 'outside' || air.mean > CLEAR_ABOVE_C) return forgetSince(memory);
  if (air.mean >= RAISE_BELOW_C) return cannotTell('near-limit');
  const first =
    scene.well.minutes.find((earlier) => earlier.temperatureC !== undefined)?.temperatureC?.mean ?? air.mean;
  const isFalling = air.mean < first - MIN_FALL_C;
  const isUrgent = air.mean <= FREEZING_C || (air.mean < URGENT_BELOW_C && isFalling);
  return {
    is: 'active',
    sinceMs: activeSince(memory, minute.atMs - MINUTE_MS),
    priority: isUrgent ? 'now' : 'soon',
    reason: 'air-near-freezing',
    figures: { airC: air.mean, isFalling },
    evidence: { temperatureC: roundTo(air.mean, 1), changeC: roundTo(air.mean - first, 1) },
    causes: weighCauses({ frozen: 1 }),
  };
}
