/**
 * Measured voltage outside the motor's range: 10 % of its plate either way ("Electrical
 * Fundamentals", Water Well Journal, 2024; NEMA MG 1). Ten minutes of it, since the start of any
 * large motor dips the supply, and a motor is cooked by hours.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type Evaluation } from '../evaluation.ts';
import { isAfterReset, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { MinuteScene, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const MAX_DEVIATION = 0.1;
const CLEAR_DEVIATION = 0.09;
/** Under this it is no supply at all: `power-lost`. */
const GONE_RATIO = 0.5;
const MINUTES = 10;

export const supplyVoltage: Watch<SinceMemory> = {
  alarm: 'supply-voltage',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

/**
 * Of a minute in which the supply was gone for a while the mean says nothing of what the motor had.
 */
function minuteVolts(minute: MinuteScene, index: number, nominal: number): number | undefined {
  const lines = minute.pumps[index]?.volts;
  if (lines?.every((line) => line.low < GONE_RATIO * nominal)) return undefined;
  return lines && lines.length > 0
    ? lines.reduce((sum, line) => sum + line.mean, 0) / lines.length
    : undefined;
}

function evaluate(scene: Scene, memory: SinceMemory): Evaluation {
  const nominal = scene.pump.card.volts;
  const { minutes } = scene.well;
  if (nominal === undefined) return cannotTell('needs-card-voltage');
  let sum = 0;
  let n = 0;
  for (let at = Math.max(0, minutes.length - MINUTES); at < minutes.length; at++) {
    const minute = minutes[at]!;
    const volts = isAfterReset(scene, minute.atMs - MINUTE_MS)
      ? minuteVolts(minute, scene.pump.index, nominal)
      : undefined;
    if (volts === undefined) continue;
    sum += volts;
    n++;
  }
  if (n < MINUTES) return cannotTell(n === 0 ? 'needs-voltage' : 'too-few-readings');
  const volts = sum / n;
  const deviation = volts / nominal - 1;
  if (Math.abs(deviation) < CLEAR_DEVIATION || volts < GONE_RATIO * nominal) return forgetSince(memory);
  if (Math.abs(deviation) < MAX_DEVIATION) return cannotTell('near-limit');
  const sinceMs = activeSince(memory, minutes[minutes.length - MINUTES]!.atMs - MINUTE_MS);
  const generator = deviation > 0 ? 0.3 : 0.2;
  return {
    is: 'active',
    sinceMs,
    reason: 'voltage-out-of-range',
    figures: { supplyV: volts, ratedV: nominal, deviation },
    evidence: { volts: roundTo(volts, 1), nominalVolts: nominal, share: roundTo(deviation, 3) },
    causes: weighCauses({
      'supply-voltage': 0.7,
      generator,
      'bad-card': Math.abs(deviation) > 0.3 ? 0.6 : 0.05,
    }),
  };
}
