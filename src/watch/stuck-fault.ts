/** A gauge that a run does not move: stuck, or its line blocked or frozen. At rest a steady tank moves nothing, and nothing is said. */
import { companyOf, speaksForPressure } from './company.ts';
import { isFresh, usesPressure } from './facts.ts';
import { sayPressure, sayTime, tidy } from './say.ts';
import type { Finding, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

/** So many whole runs of so long must have moved nothing at all: the reading is the same number to its last digit. */
const RUNS = 2;
const RUN_S = 20;

export function stuckFault(scene: Scene): Finding | undefined {
  if (!speaksForPressure(scene) || !usesPressure(scene.pump)) return undefined;
  const channel = scene.well.channels.find((one) => one.channel === nameOf(scene));
  const since = channel?.stuckSinceMs;
  if (!channel || since === undefined || !isFresh(scene, since)) return undefined;
  // Held by a drive, pressure may well be one number for an hour.
  if (scene.pump.card.control === 'variable-speed') return undefined;
  const pumps = [scene.pump, ...companyOf(scene)];
  const runs = pumps.reduce(
    (count, pump) =>
      count + pump.cycles.filter((cycle) => cycle.startedMs >= since && cycle.ranS >= RUN_S).length,
    0,
  );
  const long = pumps.some(
    (pump) => pump.run !== undefined && pump.run.startedMs >= since && pump.run.ranS > 1800,
  );
  if (runs < RUNS && !(runs >= 1 && long)) return undefined;
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  const freezing = (minute?.temperatureC?.mean ?? 20) < 1;
  const kpa = minute?.kpa?.last;
  return {
    sinceMs: since,
    why: `Pressure has read ${kpa === undefined ? 'the same' : sayPressure(kpa)} to the last digit for ${sayTime((scene.atMs - since) / 1000)}, through ${runs} runs of the pump: the gauge or its line is stuck.`,
    evidence: {
      runs,
      stuckS: Math.round((scene.atMs - since) / 1000),
      ...(kpa !== undefined && { kpa: tidy(kpa, 1) }),
    },
    causes: weigh({ 'transducer-fault': 0.6, frozen: freezing ? 0.6 : 0.02, 'blocked-nipple': 0.35 }),
  };
}

function nameOf({ pump }: Scene): string {
  return pump.ownPressure ? `${pump.card.id}/pressure` : 'pressure';
}
