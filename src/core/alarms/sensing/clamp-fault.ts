/**
 * Pressure that rises with no current is a clamp that slipped off, or another source of water, or
 * water that warms. Warming is slow; so a climb from the lower to the upper part of the band counts
 * only when it is quick, and only the second one is told.
 */
import { HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { peersOf, reportsPressure } from '../pump-peers.ts';
import { normalCutInKpa, normalCutOutKpa, lastMinute, usesPressure } from '../scene-queries.ts';
import type { Active } from '../evaluation.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * From the lower third to the uppermost fifth of the band: a fill crosses all of it, and what a
 * gauge strays by does not (argued, not measured).
 */
const LOW_BAND_FRACTION = 0.35;
const HIGH_BAND_FRACTION = 0.8;
/** A fill is over in this time at any pump that suits its tank. */
const MAX_CLIMB_MS = 20 * MINUTE_MS;
export const MIN_CLIMBS = 2;
const CLIMB_WINDOW_MS = 48 * HOUR_MS;
const MIN_HEARD_S = 40;

export interface ClampMemory {
  /** When pressure was last in the lower part of the band with the pump at rest. */
  lowMs?: number;
  /** How often pressure has climbed without current, and when first and last. */
  climbs?: number;
  firstClimbMs?: number;
  climbMs?: number;
}

export function clampFault(scene: Scene, memory: ClampMemory): Active | undefined {
  if (!reportsPressure(scene) || !usesPressure(scene.pump) || scene.pump.card.control === 'variable-speed')
    return undefined;
  const minute = lastMinute(scene);
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (!minute?.kpa || cutIn === undefined || cutOut === undefined) return undefined;
  const pumps = [scene.pump, ...peersOf(scene)];
  const ran = pumps.some((pump) => pump.run !== undefined || (minute.pumps[pump.index]?.ranS ?? 0) > 0);
  if (ran) {
    delete memory.lowMs;
    delete memory.climbs;
    return undefined;
  }
  if (pumps.some((pump) => (minute.pumps[pump.index]?.heardS ?? 0) < MIN_HEARD_S)) {
    delete memory.lowMs;
    return climbFinding(scene, memory, minute.kpa.mean);
  }
  const height = (minute.kpa.mean - cutIn) / (cutOut - cutIn);
  if (height < LOW_BAND_FRACTION) memory.lowMs = scene.atMs;
  const { lowMs } = memory;
  if (height > HIGH_BAND_FRACTION && lowMs !== undefined) {
    delete memory.lowMs;
    if (scene.atMs - lowMs <= MAX_CLIMB_MS) countClimb(memory, scene.atMs);
  }
  return climbFinding(scene, memory, minute.kpa.mean);
}

function countClimb(memory: ClampMemory, atMs: number): void {
  const recent = atMs - (memory.climbMs ?? -Infinity) < CLIMB_WINDOW_MS;
  memory.climbs = recent ? (memory.climbs ?? 0) + 1 : 1;
  if (memory.climbs === 1) memory.firstClimbMs = atMs;
  memory.climbMs = atMs;
}

function climbFinding(scene: Scene, memory: ClampMemory, kpa: number): Active | undefined {
  const { climbs = 0 } = memory;
  if (climbs < MIN_CLIMBS) return undefined;
  return {
    is: 'active',
    sinceMs: memory.firstClimbMs ?? scene.atMs,
    reason: 'pressure-rises-without-current',
    figures: { climbs, nowKpa: kpa },
    evidence: { climbs, kpa: roundTo(kpa, 0), amps: 0 },
    causes: weighCauses({ 'clamp-off': 0.85, 'heat-expansion': 0.1, 'bad-card': 0.05 }),
  };
}
