/**
 * After late readings a stretch of a well's time is run again, and its alarms are made again. What was told stays told: an alarm of
 * the same well, pump and kind that overlaps one already told is that one, keeps its id, and is told anew only where it became more
 * urgent or is over; one that is not found again is withdrawn; one that nobody heard of is raised.
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
 * @param made all alarms that the new run knows in it, those that stood at its start included
 */
export function reconcile(
  told: readonly ToldAlarm[],
  made: readonly MadeAlarm[],
  stretch: { fromMs: number; toMs: number },
): Settled[] {
  const settled: Settled[] = [];
  const used = new Set<ToldAlarm>();
  for (const alarm of made) {
    const same = told.find(
      (old) => !used.has(old) && old.withdrawnMs === undefined && isSame(old, alarm, stretch.toMs),
    );
    if (!same) {
      if (!told.some((old) => used.has(old) && isSame(old, alarm, stretch.toMs)))
        settled.push({ what: 'raised', told: newlyTold(alarm) });
      else extend(settled, alarm, stretch.toMs);
      continue;
    }
    used.add(same);
    settled.push(compare(same, alarm));
  }
  for (const old of told) {
    const within = old.raisedMs >= stretch.fromMs && old.raisedMs < stretch.toMs;
    if (used.has(old) || old.withdrawnMs !== undefined || !within) continue;
    settled.push({ what: 'withdrawn', told: { ...old, withdrawnMs: stretch.toMs } });
  }
  return settled;
}

function isSame(old: ToldAlarm, made: MadeAlarm, toMs: number): boolean {
  if (keyOf(old) !== keyOf(made)) return false;
  const oldEnds = old.clearedMs ?? Infinity;
  const madeEnds = made.clearedMs ?? toMs;
  return made.sinceMs <= oldEnds && madeEnds >= old.sinceMs;
}

function newlyTold(made: MadeAlarm): ToldAlarm {
  return { id: toldId(made), ...made };
}

function compare(old: ToldAlarm, made: MadeAlarm): Settled {
  const told: ToldAlarm = { ...old, event: made.event };
  if (made.clearedMs === undefined) delete told.clearedMs;
  else told.clearedMs = made.clearedMs;
  // Told as over, and found to stand: it is the same alarm and goes on without a new notice; its end will be told.
  if (rankOf(made.event.priority) > rankOf(old.event.priority)) return { what: 'changed', told };
  if (old.clearedMs === undefined && made.clearedMs !== undefined) return { what: 'cleared', told };
  return { what: 'kept', told };
}

/** Two alarms of the new run overlap one told: the told one goes on to the end of the second. */
function extend(settled: Settled[], made: MadeAlarm, toMs: number): void {
  const last = settled.findLast(
    (change) =>
      change.what !== 'withdrawn' &&
      isSame(change.told, { ...made, clearedMs: made.clearedMs ?? toMs }, toMs),
  );
  const one = last ?? settled.findLast((change) => keyOf(change.told) === keyOf(made));
  if (!one) return;
  if (made.clearedMs === undefined) {
    delete one.told.clearedMs;
    if (one.what === 'cleared') one.what = 'kept';
  } else one.told.clearedMs = made.clearedMs;
}
