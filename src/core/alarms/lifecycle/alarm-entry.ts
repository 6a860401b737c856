/**
 * One alarm of one pump, well or node while there is something to remember of it, as plain data,
 * and the state of all alarms of a well. What was told (a raised line without its cleared line) is
 * kept apart from the life state: a shelf silences an alarm, it does not unsay it.
 */
import { CATALOGUE } from '../../../../shared/alarms/catalogue.ts';
import type { Evidence } from '../../../../shared/api/events.ts';
import type { AlarmKind, Priority, WeighedCause } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Because } from '../../../../shared/text/en/reasons/because.ts';
import { REASON_FORMATS } from '../../../../shared/text/en/reasons/format.ts';
import { reasonSentence, type StoredReason } from '../../../../shared/text/en/reasons/reasons.ts';
import type { LifeState } from './lifecycle.ts';

export interface AlarmEntry extends StoredReason {
  alarm: AlarmKind;
  pump?: string;
  node?: string;
  state: LifeState;
  /** The condition stands, its delays passed. */
  active: boolean;
  /** A raised line was said and no cleared one since. */
  notified: boolean;
  /** When it began, as told; of the one that stands or stood last. */
  sinceMs: number;
  /** When it rose, changed its state, and since when the condition has been away. */
  raisedMs: number;
  stateChangedMs: number;
  clearSinceMs?: number;
  shelvedUntilMs?: number;
  priority: Priority;
  evidence: Evidence;
  causes: WeighedCause[];
  /** Since when another cause leads than the one told. */
  newLeadSinceMs?: number;
  /** Of which alarm it is taken to be a symptom, while it is suppressed by design. */
  symptomOf?: AlarmKind;
  /** Since when what explained it has been gone. */
  unexplainedSinceMs?: number;
}

export interface AlarmsState {
  /** The well's name, once a scene was seen. */
  well: string;
  /** By `kind/pump` (`kind/-` for the well, `kind/-/node` for a node). Normal ones are not kept. */
  entries: Record<string, AlarmEntry>;
  /** What each watch keeps between its looks, by the same key. */
  watchMemories: Record<string, object>;
  /**
   * What each watch said last, by the same key. An event that does not decide it changes nothing
   * here.
   */
  evaluations: Record<string, LastEvaluation>;
  /** Why nothing is watched, where that is so. */
  suspensions: Suspension[];
  /** When watching began again. */
  resetAtMs: number;
}

export type LastEvaluation = 'active' | 'clear' | Because;

export type Suspension = { is: 'visit' } | { is: 'out-of-service' } | { is: 'laid-up'; untilMs?: number };

export function newAlarmsState(): AlarmsState {
  return { well: '', entries: {}, watchMemories: {}, evaluations: {}, suspensions: [], resetAtMs: 0 };
}

/** In a key: the alarm is the well's, or its node's. */
export const NO_PUMP = '-';

export function entryKey(alarm: AlarmKind, pump = NO_PUMP, node?: string): string {
  return node === undefined ? `${alarm}/${pump}` : `${alarm}/${NO_PUMP}/${node}`;
}

/** An alarm as the pages show it. */
export interface ActiveAlarm extends StoredReason {
  alarm: AlarmKind;
  pump?: string;
  node?: string;
  state: LifeState;
  notified: boolean;
  sinceMs: number;
  raisedMs: number;
  shelvedUntilMs?: number;
  priority: Priority;
  why: string;
  causes: WeighedCause[];
  symptomOf?: AlarmKind;
}

/**
 * What stands or waits to be seen, in the order in which it rose. Returned alarms nobody has seen
 * are among them, by their state.
 */
export function activeAlarms(state: AlarmsState): ActiveAlarm[] {
  return Object.values(state.entries)
    .filter((entry) => entry.active || entry.notified || entry.state === 'returned-unacknowledged')
    .map(
      ({
        active: _stands,
        stateChangedMs: _stateMs,
        clearSinceMs: _awayMs,
        evidence: _evidence,
        unexplainedSinceMs: _aloneMs,
        ...shown
      }) => ({ ...shown, why: reasonSentence(shown, REASON_FORMATS.both) ?? '' }),
    )
    .sort((a, b) => a.raisedMs - b.raisedMs);
}

/**
 * Kinds that stand on this pump or its well: what the baseline asks before it learns. A note is
 * worth a look and no fault: a protector that ends runs each day would else stop all learning.
 */
export function activeKinds(state: AlarmsState, pump: string): AlarmKind[] {
  return activeFaults(state, pump).map((entry) => entry.alarm);
}

/**
 * When the oldest condition began of the active alarms of this pump or its well whose days teach
 * nothing; undefined where none is active.
 */
export function earliestConditionMs(state: AlarmsState, pump: string): number | undefined {
  const times = activeFaults(state, pump)
    .filter(({ alarm }) => !CATALOGUE[alarm].daysTeach)
    .map(({ sinceMs }) => sinceMs);
  return times.length === 0 ? undefined : Math.min(...times);
}

function activeFaults(state: AlarmsState, pump: string): AlarmEntry[] {
  return Object.values(state.entries).filter(
    (entry) => entry.active && entry.priority !== 'note' && (entry.pump === undefined || entry.pump === pump),
  );
}
