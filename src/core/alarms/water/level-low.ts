/**
 * The well's own level nears the pump. A pump needs some water over its intake to feed and to cool
 * it; 5 ft is what is commonly asked for (common practice, no source). Where the level was never
 * much higher, half of the lowest day counts instead.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type CannotTell, type Evaluation } from '../evaluation.ts';
import { lastMinute, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const MIN_LEVEL_M = 1.5;
const DEADBAND_M = 0.3;
const WINDOW_DAYS = 10;
const MIN_DAYS = 4;

interface LevelLowMemory extends SinceMemory {
  /** The lowest level of the day so far, and of each of the last ten days. */
  dayLow?: number;
  lows: number[];
}

export const levelLow: Watch<LevelLowMemory> = {
  alarm: 'level-low',
  scope: 'well',
  triggers: ['minute', 'day'],
  initialMemory: () => ({ lows: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: LevelLowMemory): Evaluation {
  if (scene.trigger === 'day') return closeDay(memory);
  const minute = lastMinute(scene);
  const level = minute?.levelM;
  if (!minute || !level) return cannotTell('needs-level');
  memory.dayLow = roundTo(Math.min(memory.dayLow ?? level.low, level.low), 2);
  const { lows } = memory;
  const usual = lows.length >= MIN_DAYS ? Math.min(...lows) : MIN_LEVEL_M * 2;
  const limit = Math.min(MIN_LEVEL_M, usual / 2);
  if (level.low > limit + DEADBAND_M) return forgetSince(memory);
  if (level.high >= limit) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: activeSince(memory, minute.atMs - MINUTE_MS),
    reason: 'level-near-intake',
    figures: { levelM: Math.max(0, level.mean) },
    evidence: {
      levelM: roundTo(level.mean),
      limitM: roundTo(limit),
      ...(lows.length > 0 && { lowestDayM: usual }),
    },
    causes: weighCauses({ 'low-well': 0.85, 'transducer-fault': 0.1, 'habit-changed': 0.05 }),
  };
}

function closeDay(memory: LevelLowMemory): CannotTell {
  if (memory.dayLow !== undefined && memory.sinceMs === undefined)
    memory.lows = [...memory.lows, memory.dayLow].slice(-WINDOW_DAYS);
  delete memory.dayLow;
  return cannotTell('not-this-trigger');
}
