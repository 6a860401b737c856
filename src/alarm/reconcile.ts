/**
 * After late readings a stretch of a well's time is run again, and its alarms are made again. What was told stays told: an alarm of
 * the same well, pump and kind that overlaps one already told is that one, keeps its id, and is told anew only where it became more
 * urgent, is over, or is not over though that was told; one that is not found again is withdrawn; one that nobody heard of is raised.
 */
import type { AlarmEvent } from '../../shared/api/events.ts';
import { rankOf, toldId, type ToldAlarm } from './told.ts';

/** One alarm as the new run made it: from its raised line to its cleared one. */
export interface MadeAlarm {
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

export type Settled =
  | { what: 'raised'; told: ToldAlarm }
  /** More urgent than it was told. */
  | { what: 'changed'; told: ToldAlarm }
  /** It was told as over, and it stands. */
  | { what: 'not-over'; told: ToldAlarm }
  /** It was told as standing and is over. */
  | { what: 'cleared'; told: ToldAlarm }
  /** Its times or words are better known; nobody is told. */
  | { what: 'kept'; told: ToldAlarm }
  | { what: 'withdrawn'; told: ToldAlarm };

/** Pairs raised, changed and cleared lines into alarms, in the order in which they rose. Lines of alarms that rose before the stretch are skipped. */
export function madeAlarms(events: readonly AlarmEvent[]): MadeAlarm[] {
  const made: MadeAlarm[] = [];
  const open = new Map<string, MadeAlarm>();
  for (const event of events) {
    const key = keyOf(event);
    const atMs = Date.parse(event.at);
    const standing = open.get(key);
    if (event.state === 'raised') {
      const alarm = fromLine(event, atMs);
      made.push(alarm);
      open.set(key, alarm);
    } else if (event.state === 'changed' && standing) {
      standing.event = event;
    } else if (event.state === 'cleared' && standing) {
      standing.clearedMs = atMs;
      open.delete(key);
    }
  }
  return made;
}

function fromLine(event: AlarmEvent, atMs: number): MadeAlarm {
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
 * Compares the alarms made again for the stretch [fromMs, toMs) with those already told of it, and says what changes.
 * @param told alarms that touch the stretch: raised before `toMs` and not over before `fromMs`
 * @param made all alarms that the new run knows in it, those that stood at its start included, in the order in which they rose
 */
export function reconcile(
  told: readonly ToldAlarm[],
  made: readonly MadeAlarm[],
  stretch: { fromMs: number; toMs: number },
): Settled[] {
  const settled: Settled[] = [];
  const found = new Set<MadeAlarm>();
  // Where several told alarms turn out to be one, the one that stands goes on.
  for (const old of told.toSorted(
    (a, b) => Number(a.clearedMs !== undefined) - Number(b.clearedMs !== undefined),
  )) {
    if (old.withdrawnMs !== undefined) continue;
    const same = made.filter((alarm) => isSame(old, alarm, stretch.toMs));
    const fresh = same.filter((alarm) => !found.has(alarm));
    for (const alarm of same) found.add(alarm);
    if (fresh.length > 0) settled.push(goneOn(old, fresh));
    else if (same.length > 0) settled.push({ what: 'kept', told: old });
    else if (old.raisedMs >= stretch.fromMs && old.raisedMs < stretch.toMs) {
      settled.push({ what: 'withdrawn', told: { ...old, withdrawnMs: stretch.toMs } });
    }
  }
  for (const alarm of made)
    if (!found.has(alarm)) settled.push({ what: 'raised', told: { id: toldId(alarm), ...alarm } });
  return settled;
}

function isSame(old: ToldAlarm, made: MadeAlarm, toMs: number): boolean {
  if (keyOf(old) !== keyOf(made)) return false;
  return made.sinceMs <= (old.clearedMs ?? Infinity) && (made.clearedMs ?? toMs) >= old.sinceMs;
}

/** One told alarm and what the new run has of it, which may be several in a row: it ends with the last and is as urgent as the worst. */
function goneOn(old: ToldAlarm, made: readonly MadeAlarm[]): Settled {
  const last = made[made.length - 1]!;
  const worst = made.reduce((most, alarm) => (rankOf(alarm.event) > rankOf(most.event) ? alarm : most), last);
  const { clearedMs: _clearedMs, ...rest } = old;
  const told: ToldAlarm = {
    ...rest,
    event: worst.event,
    ...(last.clearedMs !== undefined && { clearedMs: last.clearedMs }),
  };
  if (rankOf(worst.event) > rankOf(old.event)) return { what: 'changed', told };
  if (old.clearedMs === undefined && told.clearedMs !== undefined) return { what: 'cleared', told };
  if (old.clearedMs !== undefined && told.clearedMs === undefined) return { what: 'not-over', told };
  return { what: 'kept', told };
}
