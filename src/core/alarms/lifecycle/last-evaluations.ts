/**
 * "Why is there no leak alarm?": for each kind what its watch said last. While nothing is watched
 * that is the answer for all. News of nodes has no memory of its own: its alarms are active or they
 * are not.
 */
import type { AlarmKind } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Because } from '../../../../shared/text/en/reasons/because.ts';
import { WATCHES } from '../watches.ts';
import { entryKey, type AlarmsState, type LastEvaluation, type Suspension } from './alarm-entry.ts';

export interface WatchAnswer {
  alarm: AlarmKind;
  /** Absent if the alarm is the well's or its node's. */
  pump?: string;
  last: LastEvaluation;
}

const SUSPENDED = {
  visit: 'visit-open',
  'out-of-service': 'out-of-service',
  'laid-up': 'laid-up',
} as const satisfies Record<Suspension['is'], Because>;

/** In the order in which the watches are asked. */
export function lastEvaluations(state: AlarmsState, pumps: readonly string[]): WatchAnswer[] {
  const suspended = state.suspensions[0] && SUSPENDED[state.suspensions[0].is];
  return WATCHES.flatMap(({ alarm, scope }): WatchAnswer[] => {
    if (scope === 'node')
      return [{ alarm, last: suspended ?? (isActiveOnNode(state, alarm) ? 'active' : 'clear') }];
    const last = (pump?: string): LastEvaluation =>
      suspended ?? state.evaluations[entryKey(alarm, pump)] ?? 'not-evaluated';
    return scope === 'well'
      ? [{ alarm, last: last() }]
      : pumps.map((pump) => ({ alarm, pump, last: last(pump) }));
  });
}

function isActiveOnNode(state: AlarmsState, alarm: AlarmKind): boolean {
  return Object.values(state.entries).some((entry) => entry.alarm === alarm && entry.active);
}
