/**
 * More starts in a day than the motor allows: each start heats the windings, and the heat of one
 * has not gone when the next comes. Half as many again within a day is told at once; a little over
 * the limit only when it was so on two days running, since one such day harms no motor. Starts as
 * even as a clock through a night are nobody's habit: something runs out (./regular-starts.ts).
 */
import { DAY_MS, HOUR_MS } from '../../../../shared/units/duration.ts';
import { startsLimit, type StartsLimit } from '../../baseline/motor-starts-limit.ts';
import { cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { regularStarts, lossFromStarts, type RegularStarts, type RestMemory } from './regular-starts.ts';
import { activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Half as many again, as the head of this file says; 15 % over on two days running, since one such
 * day harms no motor (argued, not measured).
 */
const FAR_OVER_RATIO = 1.5;
const OVER_RATIO = 1.15;
/**
 * Usual starts of this much of the limit are this well's nature, and no fault of today: a small
 * tank is its own explanation.
 */
const NORMAL_RATIO = 0.9;
/** A night of watering has an end within these hours, and people sleep in these of the day. */
const MIN_CONTINUOUS_H = 8;
const ASLEEP_FROM_MS = 3 * HOUR_MS;
const ASLEEP_UNTIL_MS = 5 * HOUR_MS;

interface OverLimitMemory extends RestMemory, SinceMemory {
  /** Days in a row over the limit. */
  daysOver?: number;
}

export const startsOverLimit: Watch<OverLimitMemory> = {
  alarm: 'starts-over-limit',
  scope: 'pump',
  triggers: ['cycle', 'day'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: OverLimitMemory): Evaluation {
  const limit = startsLimit(scene.pump.card);
  const even = throughNight(scene, regularStarts(scene, memory));
  return scene.trigger === 'day'
    ? evaluateDay(scene, memory, limit, even)
    : evaluateToday(scene, memory, limit, even);
}

function throughNight(scene: Scene, even: RegularStarts | undefined): RegularStarts | undefined {
  // A heat pump's thermostat starts the pump as evenly as a leak does.
  if (!even || even.hours < MIN_CONTINUOUS_H || isHeating(scene)) return undefined;
  const { dayStartedMs } = scene.well;
  const nightMs = scene.atMs >= dayStartedMs + ASLEEP_UNTIL_MS ? dayStartedMs : dayStartedMs - DAY_MS;
  return even.sinceMs <= nightMs + ASLEEP_FROM_MS ? even : undefined;
}

function isHeating({ well }: Scene): boolean {
  return well.card.uses.includes('heat-pump');
}

function evaluateToday(
  scene: Scene,
  memory: OverLimitMemory,
  limit: StartsLimit,
  even?: RegularStarts,
): Evaluation {
  const starts = scene.pump.startsToday;
  if (starts <= FAR_OVER_RATIO * limit.perDay) return cannotTell('not-this-trigger');
  const sinceMs = activeSince(memory, scene.well.dayStartedMs);
  return finding(scene, { sinceMs, starts, limit, over: 'today', even });
}

function evaluateDay(
  scene: Scene,
  memory: OverLimitMemory,
  limit: StartsLimit,
  even?: RegularStarts,
): Evaluation {
  const starts = scene.day?.cycles;
  if (starts === undefined) return cannotTell('too-few-readings');
  if (starts > OVER_RATIO * limit.perDay) {
    const before = memory.daysOver ?? 0;
    memory.daysOver = before + 1;
    if (before === 0 && starts <= FAR_OVER_RATIO * limit.perDay) return cannotTell('not-long-enough');
    const sinceMs = activeSince(memory, scene.atMs - (before + 1) * DAY_MS);
    return finding(scene, { sinceMs, starts, limit, over: before === 0 ? 'one-day' : 'two-days', even });
  }
  delete memory.daysOver;
  if (starts > limit.perDay && memory.sinceMs !== undefined) return cannotTell('near-limit');
  return forgetSince(memory);
}

interface OverLimit {
  sinceMs: number;
  starts: number;
  limit: StartsLimit;
  over: 'today' | 'one-day' | 'two-days';
  even: RegularStarts | undefined;
}

function finding(scene: Scene, { sinceMs, starts, limit, over, even }: OverLimit): Active {
  const { cycles } = scene.pump;
  const last = cycles.slice(-10);
  const short = last.length > 0 && last.filter((c) => c.ranS < 60).length > last.length / 2;
  const usual = scene.pump.pinned?.cyclesPerDay?.median;
  const isNormal =
    usual !== undefined && usual > NORMAL_RATIO * limit.perDay && starts < FAR_OVER_RATIO * usual;
  const figures = { starts, over, limitPerDay: limit.perDay, isSizeKnown: limit.isSizeKnown };
  return {
    is: 'active',
    sinceMs,
    ...(isNormal
      ? { reason: 'starts-always-over-limit', figures: { ...figures, normalPerDay: usual } }
      : {
          reason: 'starts-over-daily-limit',
          figures: { ...figures, ...(usual !== undefined && { normalPerDay: usual }) },
        }),
    evidence: {
      starts,
      limit: limit.perDay,
      ...(usual !== undefined && { normal: roundTo(usual, 1) }),
      ...(!isNormal && even && regularEvidence(scene, even)),
    },
    causes: isNormal ? [] : even ? REGULAR_CAUSES : isHeating(scene) ? HEATING_CAUSES : causesOf(short),
  };
}

/** The loss is of now; what the last whole day lost may be older than it. */
function regularEvidence(scene: Scene, even: RegularStarts): Active['evidence'] {
  const lPerH = lossFromStarts(scene, even)?.lPerH;
  return {
    restS: roundTo(even.restS, 0),
    ...(lPerH !== undefined && { leakLPerDay: roundTo(24 * lPerH, 0) }),
  };
}

/** A tank without air spaces starts more closely, but makes none. */
const REGULAR_CAUSES = weighCauses({
  leak: 0.4,
  'open-tap': 0.25,
  'check-valve': 0.2,
  'tank-air-lost': 0.1,
  'habit-changed': 0.05,
});

/**
 * Each call of the thermostat is some starts; a tank that holds more of what it draws makes fewer.
 */
const HEATING_CAUSES = weighCauses({
  'habit-changed': 0.45,
  'tank-too-small': 0.3,
  'tank-air-lost': 0.15,
  leak: 0.1,
});

function causesOf(short: boolean): Active['causes'] {
  return short
    ? weighCauses({
        'tank-air-lost': 0.3,
        'bladder-burst': 0.3,
        leak: 0.2,
        'check-valve': 0.1,
        'tank-too-small': 0.1,
        'habit-changed': 0.1,
      })
    : weighCauses({
        leak: 0.3,
        'habit-changed': 0.3,
        'open-tap': 0.15,
        'check-valve': 0.15,
        'tank-air-lost': 0.1,
      });
}
