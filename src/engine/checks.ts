/** The checks of the first hour as they stand now, of all pumps of a well: what its page shows. */
import { CLIMBS } from '../watch/clamp-fault.ts';
import { numberOf } from '../watch/facts.ts';
import { firstCheck, type Check } from '../watch/first-check.ts';
import { sceneOf } from './look.ts';
import type { WellState } from './state.ts';

export function checksOf(well: WellState): Check[] {
  return well.pumps.flatMap((_, at) => {
    const scene = sceneOf(well, { why: 'minute', atMs: well.nowMs, pump: at });
    if (well.alarms.freshFromMs > 0) scene.freshFromMs = well.alarms.freshFromMs;
    const blind = isBlind(well, scene.pump.card.id);
    return firstCheck(scene).map((check) =>
      blind && check.what === 'clamp-place' ? { ...check, state: 'differs' as const } : check,
    );
  });
}

/** Pressure has climbed without current: `sensor-fault` remembers how often. */
function isBlind({ alarms }: WellState, pump: string): boolean {
  return numberOf(alarms.memos[`sensor-fault/${pump}`] ?? {}, 'climbs', 0) >= CLIMBS;
}
