/**
 * Pressure that rises with no current is a clamp that slipped off, or another source of water, or water that warms. Warming is slow; so a climb
 * from the lower to the upper part of the band counts only when it is quick, and only the second one is told.
 */
import { HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { peersOf, reportsPressure } from '../pump-peers.ts';
import { normalCutInKpa, normalCutOutKpa, lastMinute, memoryNumber, usesPressure } from '../scene-queries.ts';
import { formatPressure, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const LOW_BAND_FRACTION = 0.35;
const HIGH_BAND_FRACTION = 0.8;
/** A fill is over in this time at any pump that suits its tank. */
const MAX_CLIMB_MS = 20 * MINUTE_MS;
export const MIN_CLIMBS = 2;
const CLIMB_WINDOW_MS = 48 * HOUR_MS;
const MIN_HEARD_S = 40;

export function clampFault(scene: Scene, memo: WatchMemory): Finding | undefined {
  if (!reportsPressure(scene) || !usesPressure(scene.pump) || scene.pump.card.control === 'variable-speed')
    return undefined;
  const minute = lastMinute(scene);
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (!minute?.kpa || cutIn === undefined || cutOut === undefined) return undefined;
  const pumps = [scene.pump, ...peersOf(scene)];
  const ran = pumps.some((pump) => pump.run !== undefined || (minute.pumps[pump.index]?.ranS ?? 0) > 0);
  if (ran) {
    delete memo['lowMs'];
    delete memo['climbs'];
    return undefined;
  }
  if (pumps.some((pump) => (minute.pumps[pump.index]?.heardS ?? 0) < MIN_HEARD_S)) {
    delete memo['lowMs'];
    return climbFinding(scene, memo, minute.kpa.mean);
  }
  const height = (minute.kpa.mean - cutIn) / (cutOut - cutIn);
  if (height < LOW_BAND_FRACTION) memo['lowMs'] = scene.atMs;
  const lowMs = memoryNumber(memo, 'lowMs', NaN);
  if (height > HIGH_BAND_FRACTION && Number.isFinite(lowMs)) {
    delete memo['lowMs'];
    if (scene.atMs - lowMs <= MAX_CLIMB_MS) countClimb(memo, scene.atMs);
  }
  return climbFinding(scene, memo, minute.kpa.mean);
}

function countClimb(memo: WatchMemory, atMs: number): void {
  const recent = atMs - memoryNumber(memo, 'climbMs', -Infinity) < CLIMB_WINDOW_MS;
  memo['climbs'] = recent ? memoryNumber(memo, 'climbs', 0) + 1 : 1;
  if (memo['climbs'] === 1) memo['firstClimbMs'] = atMs;
  memo['climbMs'] = atMs;
}

function climbFinding(scene: Scene, memo: WatchMemory, kpa: number): Finding | undefined {
  const climbs = memoryNumber(memo, 'climbs', 0);
  if (climbs < MIN_CLIMBS) return undefined;
  return {
    sinceMs: memoryNumber(memo, 'firstClimbMs', scene.atMs),
    why: `Pressure has climbed to cut-out ${climbs} times while no current was seen: the pump runs and its clamp does not show it. Now ${formatPressure(kpa)}.`,
    evidence: { climbs, kpa: roundTo(kpa, 0), amps: 0 },
    causes: weighCauses({ 'clamp-off': 0.85, 'heat-expansion': 0.1, 'bad-card': 0.05 }),
  };
}
