/**
 * After late readings a stretch of a well's time is run again, and its alarms are made again. What
 * was told stays told: an alarm of the same well, pump and kind that overlaps one already told is
 * that one, keeps its id, and is told anew only where it became more urgent, is over, or is not
 * over though that was told; one that is not found again is withdrawn; one that nobody heard of is
 * raised.
 */
import type { AlarmEvent } from '../../../../shared/api/events.ts';
import { priorityRank, knownAlarmId, type KnownAlarm } from './known-alarm.ts';

/** One alarm as the new run made it: from its raised line to its cleared one. */
export interface RerunAlarm {
  well: string;
  pump?: string;
  node?: string;
  alarm: string;
  sinceMs: number;
  raisedMs: number;
  clearedMs?: number;
  /** The last raised or changed line. */
  event: AlarmEvent;
}

export type Reconciliation =
  | { what: 'raised'; alarm: KnownAlarm }
  /** More urgent than it was told. */
  | { what: 'changed'; alarm: KnownAlarm }
  /** It was told as over, and it stands. */
  | { what: 'reopened'; alarm: KnownAlarm }
  /** It was told as standing and is over. */
  | { what: 'cleared'; alarm: KnownAlarm }
  /** Its times or words are better known; nobody is told. */
  | { what: 'unchanged'; alarm: KnownAlarm }
  | { what: 'withdrawn'; alarm: KnownAlarm };

/**
 * Pairs raised, changed and cleared lines into alarms, in the order in which they rose. Lines of
 * alarms that rose before the stretch are skipped.
 */
export function rerunAlarms(events: readonly AlarmEvent[]): RerunAlarm[] {
  const alarms: RerunAlarm[] = [];
  const open = new Map<string, RerunAlarm>();
  for (const event of events) {
    const key = keyOf(event);
    const atMs = Date.parse(event.at);
    const active = open.get(key);
    if (event.state === 'raised') {
      const alarm = fromEvent(event, atMs);
      alarms.push(alarm);
      open.set(key, alarm);
    } else if (event.state === 'changed' && active) {
      active.event = event;
    } else if (event.state === 'cleared' && active) {
      active.clearedMs = atMs;
      open.delete(key);
    }
  }
  return alarms;
}

function fromEvent(event: AlarmEvent, atMs: number): RerunAlarm {
  return {
    well: event.well ?? '',
    ...(event.pump !== undefined && { pump: event.pump }),
    ...(event.node !== undefined && { node: event.node }),
    alarm: event.alarm,
    sinceMs: event.since === undefined ? atMs : Date.parse(event.since),
    raisedMs: atMs,
    event,
  };
}

function keyOf(alarm: { well?: string; pump?: string; node?: string; alarm: string }): string {
  return `${alarm.well ?? ''}/${alarm.pump ?? ''}/${alarm.node ?? ''}/${alarm.alarm}`;
}

/**
 * Compares the alarms made again for the stretch [fromMs, toMs) with those already told of it, and
 * says what changes.
 * @param known alarms that touch the stretch: raised before `toMs` and not over before `fromMs`
 * @param rerun all alarms that the new run knows in it, those that stood at its start included, in
 * the order in which they rose
 */
export function reconcile(
  known: readonly KnownAlarm[],
  rerun: readonly RerunAlarm[],
  segment: { fromMs: number; toMs: number },
): Reconciliation[] {
  const changes: Reconciliation[] = [];
  const found = new Set<RerunAlarm>();
  // Where several told alarms turn out to be one, the one that stands goes on.
  for (const old of known.toSorted(
    (a, b) => Number(a.clearedMs !== undefined) - Number(b.clearedMs !== undefined),
  )) {
    if (old.withdrawnMs !== undefined) continue;
    const same = rerun.filter((alarm) => isSame(old, alarm, segment.toMs));
    const fresh = same.filter((alarm) => !found.has(alarm));
    for (const alarm of same) found.add(alarm);
    if (fresh.length > 0) changes.push(mergeContinuing(old, fresh));
    else if (same.length > 0) changes.push({ what: 'unchanged', alarm: old });
    else if (old.raisedMs >= segment.fromMs && old.raisedMs < segment.toMs) {
      changes.push({ what: 'withdrawn', alarm: { ...old, withdrawnMs: segment.toMs } });
    }
  }
  for (const alarm of rerun)
    if (!found.has(alarm)) changes.push({ what: 'raised', alarm: { id: knownAlarmId(alarm), ...alarm } });
  return changes;
}

function isSame(old: KnownAlarm, rerun: RerunAlarm, toMs: number): boolean {
  if (keyOf(old) !== keyOf(rerun)) return false;
  return rerun.sinceMs <= (old.clearedMs ?? Infinity) && (rerun.clearedMs ?? toMs) >= old.sinceMs;
}

/**
 * One told alarm and what the new run has of it, which may be several in a row: it ends with the
 * last and is as urgent as the worst.
 */
function mergeContinuing(old: KnownAlarm, rerun: readonly RerunAlarm[]): Reconciliation {
  const last = rerun[rerun.length - 1]!;
  const worst = rerun.reduce(
    (most, alarm) => (priorityRank(alarm.event) > priorityRank(most.event) ? alarm : most),
    last,
  );
  const { clearedMs: _clearedMs, ...rest } = old;
  const known: KnownAlarm = {
    ...rest,
    event: worst.event,
    ...(last.clearedMs !== undefined && { clearedMs: last.clearedMs }),
  };
  if (priorityRank(worst.event) > priorityRank(old.event)) return { what: 'changed', alarm: known };
  if (old.clearedMs === undefined && known.clearedMs !== undefined) return { what: 'cleared', alarm: known };
  if (old.clearedMs !== undefined && known.clearedMs === undefined) return { what: 'reopened', alarm: known };
  return { what: 'unchanged', alarm: known };
}
