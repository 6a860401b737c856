/**
 * Of two pumps that take turns one has stopped taking its own. Water still comes, so pressure says
 * nothing; but a pump that rested twice as long as ever, while its company started a dozen times,
 * is not there when it is needed. It is the contract's `no-run`: runs that this pump always makes
 * do not come. A lag pump, which may rest for months, takes no turns and is never judged.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { alternatesWith } from '../pump-peers.ts';
import { CLEAR, cannotTell, type Evaluation } from '../evaluation.ts';
import { isAfterReset } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * By turns the other starts once or twice meanwhile; a dozen by chance alone, at even shares, would
 * be once in four thousand.
 */
const MIN_OTHER_STARTS = 12;
/** Times its longest rest, and half a day at least. */
const REST_MULTIPLE = 2;
const MIN_REST_S = 12 * HOUR_S;
/** No more of a pump's cycles are remembered (src/core/alarms/scene.ts). */
const MAX_KNOWN_CYCLES = 40;

/** Clear if the pump takes its turn; cannot tell if it has none to take. */
export function missedTurn(scene: Scene): Evaluation {
  const { pump } = scene;
  const other = alternatesWith(scene);
  const longestS = pump.baseline?.longestRestS;
  const sinceMs = pump.restSinceMs;
  if (!other) return cannotTell('other-pump');
  if (longestS === undefined) return cannotTell('learning');
  if (sinceMs === undefined || !isAfterReset(scene, sinceMs)) return cannotTell('too-few-runs');
  const starts = other.cycles.filter((cycle) => cycle.startedMs > sinceMs).length;
  const restedS = (scene.atMs - sinceMs) / 1000;
  if (starts < MIN_OTHER_STARTS || restedS < Math.max(MIN_REST_S, REST_MULTIPLE * longestS)) return CLEAR;
  const name = other.card.id;
  return {
    is: 'active',
    sinceMs,
    // Water comes from the other: nobody need act on it at once, with stock either.
    priority: 'soon',
    reason: 'turn-missed',
    figures: {
      otherPump: name,
      otherStarts: starts,
      areMore: starts === MAX_KNOWN_CYCLES,
      restedS,
      longestRestS: longestS,
    },
    evidence: { restedS: roundTo(restedS, 0), longestRestS: longestS, startsOfOther: starts, other: name },
    causes: weighCauses({
      'breaker-open': 0.3,
      'overload-tripping': 0.2,
      'failing-motor': 0.15,
      'switch-out-of-set': 0.15,
      'clamp-off': 0.2,
    }),
  };
}
