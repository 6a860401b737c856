/**
 * The well's own level nears the pump. A pump needs some water over its intake to feed and to cool it; 5 ft is what is commonly
 * asked for (common practice, no source). Where the level was never much higher, half of the lowest day counts instead.
 */
import { lastMinute, listOf, numberOf, standingSince, standsNot } from './facts.ts';
import { sayLength, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const LOW_M = 1.5;
const DEADBAND_M = 0.3;
const DAYS = 10;
const LEAST_DAYS = 4;

export const levelLow: Watch = {
  alarm: 'level-low',
  each: 'well',
  on: ['minute', 'day'],
  onDelayS: 120,
  offDelayS: 3600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  if (scene.why === 'day') return endDay(memo);
  const minute = lastMinute(scene);
  const level = minute?.levelM;
  if (!minute || !level) return undefined;
  memo['dayLow'] = tidy(Math.min(numberOf(memo, 'dayLow', level.low), level.low), 2);
  const lows = listOf(memo, 'lows');
  const usual = lows.length >= LEAST_DAYS ? Math.min(...lows) : LOW_M * 2;
  const limit = Math.min(LOW_M, usual / 2);
  if (level.low > limit + DEADBAND_M) return standsNot(memo);
  if (level.high >= limit) return undefined;
  return {
    sinceMs: standingSince(memo, minute.atMs - 60_000),
    why: `Only ${sayLength(Math.max(0, level.mean))} of water stand over the pump's intake.`,
    evidence: {
      levelM: tidy(level.mean),
      limitM: tidy(limit),
      ...(lows.length > 0 && { lowestDayM: usual }),
    },
    causes: weigh({ 'low-well': 0.85, 'transducer-fault': 0.1, 'habit-changed': 0.05 }),
  };
}

function endDay(memo: Memo): undefined {
  const low = numberOf(memo, 'dayLow', NaN);
  if (Number.isFinite(low) && memo['sinceMs'] === undefined)
    memo['lows'] = [...listOf(memo, 'lows'), low].slice(-DAYS);
  delete memo['dayLow'];
  return undefined;
}
