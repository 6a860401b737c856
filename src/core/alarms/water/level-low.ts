/**
 * The well's own level nears the pump. A pump needs some water over its intake to feed and to cool it; 5 ft is what is commonly
 * asked for (common practice, no source). Where the level was never much higher, half of the lowest day counts instead.
 */
import { HOUR_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { lastMinute, memoryList, memoryNumber, activeSince, clearActive } from '../scene-queries.ts';
import { formatLength, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const MIN_LEVEL_M = 1.5;
const DEADBAND_M = 0.3;
const WINDOW_DAYS = 10;
const MIN_DAYS = 4;

export const levelLow: Watch = {
  alarm: 'level-low',
  scope: 'well',
  triggers: ['minute', 'day'],
  onDelayS: 120,
  offDelayS: HOUR_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  if (scene.trigger === 'day') return closeDay(memo);
  const minute = lastMinute(scene);
  const level = minute?.levelM;
  if (!minute || !level) return undefined;
  memo['dayLow'] = roundTo(Math.min(memoryNumber(memo, 'dayLow', level.low), level.low), 2);
  const lows = memoryList(memo, 'lows');
  const usual = lows.length >= MIN_DAYS ? Math.min(...lows) : MIN_LEVEL_M * 2;
  const limit = Math.min(MIN_LEVEL_M, usual / 2);
  if (level.low > limit + DEADBAND_M) return clearActive(memo);
  if (level.high >= limit) return undefined;
  return {
    sinceMs: activeSince(memo, minute.atMs - MINUTE_MS),
    why: `Only ${formatLength(Math.max(0, level.mean))} of water stand over the pump's intake.`,
    evidence: {
      levelM: roundTo(level.mean),
      limitM: roundTo(limit),
      ...(lows.length > 0 && { lowestDayM: usual }),
    },
    causes: weighCauses({ 'low-well': 0.85, 'transducer-fault': 0.1, 'habit-changed': 0.05 }),
  };
}

function closeDay(memo: WatchMemory): undefined {
  const low = memoryNumber(memo, 'dayLow', NaN);
  if (Number.isFinite(low) && memo['sinceMs'] === undefined)
    memo['lows'] = [...memoryList(memo, 'lows'), low].slice(-WINDOW_DAYS);
  delete memo['dayLow'];
  return undefined;
}
