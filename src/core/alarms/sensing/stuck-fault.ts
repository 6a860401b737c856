/**
 * A gauge that a run does not move: stuck, or its line blocked or frozen. At rest a steady tank
 * moves nothing, and nothing is said.
 */
import { peersOf, reportsPressure } from '../pump-peers.ts';
import { isAfterReset, usesPressure } from '../scene-queries.ts';
import type { Active } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * So many whole runs of so long must have moved nothing at all: the reading is the same number to
 * its last digit.
 */
const MIN_RUNS = 2;
const MIN_RUN_S = 20;

export function stuckFault(scene: Scene): Active | undefined {
  if (!reportsPressure(scene) || !usesPressure(scene.pump)) return undefined;
  const channel = scene.well.channels.find((one) => one.channel === pressureChannelName(scene));
  const since = channel?.stuckSinceMs;
  if (!channel || since === undefined || !isAfterReset(scene, since)) return undefined;
  // Held by a drive, pressure may well be one number for an hour.
  if (scene.pump.card.control === 'variable-speed') return undefined;
  const pumps = [scene.pump, ...peersOf(scene)];
  const runs = pumps.reduce(
    (count, pump) =>
      count + pump.cycles.filter((cycle) => cycle.startedMs >= since && cycle.ranS >= MIN_RUN_S).length,
    0,
  );
  const long = pumps.some(
    (pump) => pump.run !== undefined && pump.run.startedMs >= since && pump.run.ranS > 1800,
  );
  if (runs < MIN_RUNS && !(runs >= 1 && long)) return undefined;
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  const freezing = (minute?.temperatureC?.mean ?? 20) < 1;
  const kpa = minute?.kpa?.last;
  const stuckS = (scene.atMs - since) / 1000;
  return {
    is: 'active',
    sinceMs: since,
    reason: 'pressure-stuck',
    figures: { ...(kpa !== undefined && { lastKpa: kpa }), stuckS, runs },
    evidence: {
      runs,
      stuckS: Math.round(stuckS),
      ...(kpa !== undefined && { kpa: roundTo(kpa, 1) }),
    },
    // A transducer mostly has a port of its own on the tee, and not the switch's pipe.
    causes: weighCauses({ 'transducer-fault': 0.75, frozen: freezing ? 0.75 : 0.02, 'blocked-nipple': 0.2 }),
  };
}

function pressureChannelName({ pump }: Scene): string {
  return pump.hasOwnPressure ? `${pump.card.id}/pressure` : 'pressure';
}
