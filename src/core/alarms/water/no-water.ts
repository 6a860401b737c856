/**
 * The taps run dry: pressure under 5 psi for a minute. Said only of a transducer that has shown
 * pressure before: one that never did is not connected, which is `sensor-fault`.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type Evaluation } from '../evaluation.ts';
import { detectGaugeDrop } from '../sensing/gauge-drop.ts';
import {
  KPA_PER_PSI,
  lastMinute,
  activeSince,
  forgetSince,
  usesPressure,
  type SinceMemory,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { isProtectorWaiting } from '../pump/ended-by-protector.ts';
import { weighCauses } from '../weigh-causes.ts';

/** The contract's 35 kPa. */
const DRY_KPA = 35;
const CLEAR_KPA = DRY_KPA + 2 * KPA_PER_PSI;
/** Pressure that a working well has shown: 20 psi. */
const WORKING_KPA = 20 * KPA_PER_PSI;
/** Under nothing by more than a transducer's offset is a broken wire and not a dry tap. */
const BROKEN_WIRE_KPA = -3 * KPA_PER_PSI;
/** From 20 psi to nothing within this: no tank empties so fast through taps. */
const MAX_SUDDEN_MS = MINUTE_MS;

interface NoWaterMemory extends SinceMemory {
  /** The transducer has shown the pressure of a working well. */
  alive?: boolean;
}

/**
 * A protector stopped the pump, as a rule because the well is empty; a closed valve does it too.
 */
const PROTECTOR_CAUSES = weighCauses({
  'low-well': 0.55,
  'protector-waiting': 0.25,
  'closed-valve': 0.1,
  'lost-prime': 0.05,
  'worn-pump': 0.05,
});

export const noWater: Watch<NoWaterMemory> = {
  alarm: 'no-water',
  scope: 'well',
  triggers: ['minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: NoWaterMemory): Evaluation {
  const minute = lastMinute(scene);
  const serving = scene.pumps.find(usesPressure);
  // Pressure at the taps is the whole well's; where it has none, that of the pump that serves them
  // (a booster behind a store).
  const kpa = minute?.kpa ?? (serving && minute?.pumps[serving.index]?.kpa);
  if (!minute) return cannotTell('too-few-readings');
  if (!kpa) return cannotTell('needs-pressure');
  if (kpa.low > WORKING_KPA) memory.alive = true;
  if (memory.alive !== true || kpa.mean < BROKEN_WIRE_KPA) return cannotTell('sensor-in-doubt');
  if (kpa.low > CLEAR_KPA) return forgetSince(memory);
  if (kpa.high >= DRY_KPA) return cannotTell('near-limit');
  // A gauge that lost its plug is told as such, and says nothing of the taps.
  if (detectGaugeDrop(scene, minute.kpa ? scene.pump : serving)) return cannotTell('sensor-in-doubt');
  const sinceMs = activeSince(memory, minute.atMs - MINUTE_MS);
  const running = minute.pumps.some((pump) => pump.ranS > 30);
  const fell = fellSuddenly(scene, sinceMs);
  const { lowCutOffKpa, cutInKpa } = scene.well.card.switch;
  return {
    is: 'active',
    sinceMs,
    reason: running ? 'no-pressure-pump-running' : 'no-pressure-pump-stopped',
    figures: { kpa: Math.max(0, kpa.mean) },
    evidence: { kpa: roundTo(kpa.mean, 1), pump: running ? 'running' : 'resting' },
    causes: running
      ? weighCauses({
          'broken-pipe': fell ? 0.55 : 0.35,
          'low-well': 0.25,
          'store-empty': scene.pump.card.kind === 'booster' ? 0.4 : 0,
          'lost-prime': 0.15,
          'drop-pipe-leak': 0.1,
          'worn-pump': 0.1,
          'closed-valve': 0.06,
          frozen: 0.03,
          'transducer-fault': fell ? 0.1 : 0.05,
        })
      : scene.pumps.some((pump) => isProtectorWaiting(pump, scene.atMs))
        ? PROTECTOR_CAUSES
        : weighCauses({
            'power-lost': 0.25,
            'breaker-open': 0.25,
            // Only where the switch is known to have one, or nothing is known of the switch.
            'low-pressure-cut-off': lowCutOffKpa !== undefined ? 0.3 : cutInKpa === undefined ? 0.15 : 0.06,
            'failing-motor': 0.1,
            'broken-pipe': fell ? 0.3 : 0.1,
            frozen: 0.03,
            'transducer-fault': fell ? 0.2 : 0.1,
          }),
  };
}

/**
 * Water that is used takes the pressure down over many minutes; a burst, or a gauge whose line
 * broke, at once.
 */
function fellSuddenly(scene: Scene, sinceMs: number): boolean {
  const before = scene.well.minutes.findLast((minute) => minute.atMs <= sinceMs - MAX_SUDDEN_MS);
  return before?.kpa !== undefined && before.kpa.mean > WORKING_KPA;
}
