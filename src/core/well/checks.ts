/** The checks of the first hour as they stand now, of all pumps of a well: what its page shows. */
import { MIN_CLIMBS } from '../alarms/sensing/clamp-fault.ts';
import { runFirstChecks, type Check } from '../alarms/first-hour/first-checks.ts';
import { sceneOf } from './evaluate-watches.ts';
import type { WellState } from './well-state.ts';

export function checksOf(well: WellState): Check[] {
  return well.pumps.flatMap((_, at) => {
    const scene = sceneOf(well, { trigger: 'minute', atMs: well.nowMs, pump: at });
    if (well.alarms.resetAtMs > 0) scene.resetAtMs = well.alarms.resetAtMs;
    const blind = isClampBlind(well, scene.pump.card.id);
    return runFirstChecks(scene).map((check) =>
      blind && check.what === 'clamp-place' ? { ...check, state: 'differs' as const } : check,
    );
  });
}

/** Pressure has climbed without current: `sensor-fault` remembers how often. */
function isClampBlind({ alarms }: WellState, pump: string): boolean {
  const memory: { climbs?: number } | undefined = alarms.watchMemories[`sensor-fault/${pump}`];
  return (memory?.climbs ?? 0) >= MIN_CLIMBS;
}
