/**
 * What was told of a stretch of a well's time, compared with what a run again makes of it: nobody
 * hears the same twice, and everybody hears of what turned out wrong.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import { standing } from '../alarms/lifecycle/alarms.ts';
import {
  reconcile,
  rerunAlarms,
  type Reconciliation,
  type RerunAlarm,
} from '../alarms/lifecycle/reconcile.ts';
import { formatTime } from '../well/emit.ts';
import { alarmRowsOf, keepRow, keyOf, SERVER_ALARMS, syncStates, uniqueId } from './alarm-rows.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import type { WellPipeline } from './well-pipeline.ts';

/** Up to when anything was told of this well: 0 for nothing. What is told was passed. */
export function knownToMs(fleet: Fleet, well: string): number {
  let toMs = 0;
  for (const row of alarmRowsOf(fleet, well)) {
    if (row.withdrawnMs !== undefined || SERVER_ALARMS.has(row.alarm)) continue;
    toMs = Math.max(toMs, row.raisedMs, row.clearedMs ?? 0);
  }
  return toMs;
}

/** The alarms that a well's state knows as told. */
export function knownAlarmKeys(pipeline: WellPipeline): Set<string> {
  return new Set(
    standing(pipeline.state.alarms)
      .filter((s) => s.notified)
      .map((s) => keyOf({ ...s, well: pipeline.well })),
  );
}

/** After a stretch was run again: what was told is compared with what was made. */
export function reconcileAlarms(
  fleet: Fleet,
  pipeline: WellPipeline,
  events: readonly AlarmEvent[],
  window: { fromMs: number; toMs: number; nowMs: number; activeBefore: ReadonlySet<string> },
  emit: EmitEffect,
): void {
  const rows = alarmRowsOf(fleet, pipeline.well).filter((row) => !SERVER_ALARMS.has(row.alarm));
  const known = rows.filter(
    (row) =>
      row.withdrawnMs === undefined &&
      row.raisedMs <= window.toMs &&
      (row.clearedMs === undefined || row.clearedMs >= window.fromMs),
  );
  const made = [...activeAtStart(known, events, window), ...rerunAlarms(events)];
  for (const { what, alarm: settled } of reconcile(known, made, {
    fromMs: window.fromMs,
    toMs: window.toMs + 1,
  })) {
    const row = what === 'raised' ? undefined : rows.find((r) => r.id === settled.id);
    if (!row) {
      const id = uniqueId(alarmRowsOf(fleet, pipeline.well), settled.id);
      const fresh: AlarmRow = { ...settled, id, state: 'unacknowledged' };
      alarmRowsOf(fleet, pipeline.well).push(fresh);
      keepRow(emit, fresh, newsOf(fresh, what, window.nowMs));
      continue;
    }
    const before = { ...row };
    row.event = settled.event;
    if (settled.clearedMs === undefined) delete row.clearedMs;
    else row.clearedMs = settled.clearedMs;
    if (settled.withdrawnMs !== undefined) row.withdrawnMs = window.nowMs;
    keepRow(emit, row, newsOf(row, what, window.nowMs, before));
  }
  syncStates(fleet, pipeline, emit);
}

function newsOf(
  row: AlarmRow,
  what: Reconciliation['what'],
  nowMs: number,
  before?: AlarmRow,
): { event: AlarmEvent; before?: AlarmRow } | undefined {
  const event = eventFor(row, what, nowMs);
  return event && { event, ...(before && { before }) };
}

/** The line that says what settled; nothing is said where nothing changed for people. */
function eventFor(row: AlarmRow, what: Reconciliation['what'], nowMs: number): AlarmEvent | undefined {
  switch (what) {
    case 'unchanged':
      return undefined;
    case 'raised':
      return row.event;
    case 'changed':
    case 'reopened':
      return { ...row.event, state: 'changed' };
    case 'cleared':
      return { ...identityOf(row), state: 'cleared', at: formatTime(row.clearedMs ?? nowMs) };
    case 'withdrawn':
      return { ...identityOf(row), state: 'withdrawn', at: formatTime(nowMs) };
    default:
      return what satisfies never;
  }
}

/** Who an alarm is of, without what was said of it. */
function identityOf({ event }: AlarmRow): Omit<AlarmEvent, 'state' | 'at'> {
  const { well, site, pump, node, alarm } = event;
  return {
    event: 'alarm',
    ...(well !== undefined && { well }),
    ...(site !== undefined && { site }),
    ...(pump !== undefined && { pump }),
    ...(node !== undefined && { node }),
    alarm,
  };
}

/**
 * Alarms that stood when the stretch began: the new run knows them from its save, and says only how
 * they go on. One that the save does not know was over by then.
 */
function activeAtStart(
  known: readonly AlarmRow[],
  events: readonly AlarmEvent[],
  { fromMs, activeBefore }: { fromMs: number; activeBefore: ReadonlySet<string> },
): RerunAlarm[] {
  return known
    .filter((row) => row.raisedMs < fromMs)
    .map((row) => {
      const mine = events.filter((event) => keyOf(event) === keyOf(row));
      const first = mine.findIndex((event) => event.state === 'cleared' || event.state === 'raised');
      const cleared = mine[first]?.state === 'cleared' ? mine[first] : undefined;
      const changed = mine.slice(0, first < 0 ? mine.length : first).at(-1);
      const { clearedMs: _ended, ...rest } = row;
      if (!activeBefore.has(keyOf(row))) return { ...rest, clearedMs: fromMs - 1 };
      return {
        ...rest,
        event: changed ?? row.event,
        ...(cleared && { clearedMs: Date.parse(cleared.at) }),
      };
    });
}
