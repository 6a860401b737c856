/**
 * Pressure that rises with no current is a clamp that slipped off, or another source of water, or water that warms. Warming is slow; so a climb
 * from the lower to the upper part of the band counts only when it is quick, and only the second one is told.
 */
import { companyOf, speaksForPressure } from './company.ts';
import { cutInOf, cutOutOf, lastMinute, numberOf, usesPressure } from './facts.ts';
import { sayPressure, tidy } from './say.ts';
import type { Finding, Memo, Scene } from './scene.ts';
import { weigh } from './weigh.ts';

const LOWER = 0.35;
const UPPER = 0.8;
/** A fill is over in this time at any pump that suits its tank. */
const QUICK_MS = 20 * 60_000;
export const CLIMBS = 2;
const WITHIN_MS = 48 * 3_600_000;
const HEARD_S = 40;

export function clampFault(scene: Scene, memo: Memo): Finding | undefined {
  if (!speaksForPressure(scene) || !usesPressure(scene.pump) || scene.pump.card.control === 'variable-speed')
    return undefined;
  const minute = lastMinute(scene);
  const cutIn = cutInOf(scene);
  const cutOut = cutOutOf(scene);
  if (!minute?.kpa || cutIn === undefined || cutOut === undefined) return undefined;
  const pumps = [scene.pump, ...companyOf(scene)];
  const ran = pumps.some((pump) => pump.run !== undefined || (minute.pumps[pump.index]?.ranS ?? 0) > 0);
  if (ran) {
    delete memo['lowMs'];
    delete memo['climbs'];
    return undefined;
  }
  if (pumps.some((pump) => (minute.pumps[pump.index]?.heardS ?? 0) < HEARD_S)) {
    delete memo['lowMs'];
    return known(scene, memo, minute.kpa.mean);
  }
  const height = (minute.kpa.mean - cutIn) / (cutOut - cutIn);
  if (height < LOWER) memo['lowMs'] = scene.atMs;
  const lowMs = numberOf(memo, 'lowMs', NaN);
  if (height > UPPER && Number.isFinite(lowMs)) {
    delete memo['lowMs'];
    if (scene.atMs - lowMs <= QUICK_MS) countClimb(memo, scene.atMs);
  }
  return known(scene, memo, minute.kpa.mean);
}

function countClimb(memo: Memo, atMs: number): void {
  const recent = atMs - numberOf(memo, 'climbMs', -Infinity) < WITHIN_MS;
  memo['climbs'] = recent ? numberOf(memo, 'climbs', 0) + 1 : 1;
  if (memo['climbs'] === 1) memo['firstClimbMs'] = atMs;
  memo['climbMs'] = atMs;
}

function known(scene: Scene, memo: Memo, kpa: number): Finding | undefined {
  const climbs = numberOf(memo, 'climbs', 0);
  if (climbs < CLIMBS) return undefined;
  return {
    sinceMs: numberOf(memo, 'firstClimbMs', scene.atMs),
    why: `Pressure has climbed to cut-out ${climbs} times while no current was seen: the pump runs and its clamp does not show it. Now ${sayPressure(kpa)}.`,
    evidence: { climbs, kpa: tidy(kpa, 0), amps: 0 },
    causes: weigh({ 'clamp-off': 0.85, 'heat-expansion': 0.1, 'bad-card': 0.05 }),
  };
}
