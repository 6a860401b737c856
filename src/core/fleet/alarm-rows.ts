/**
 * Alarms on their way to people: a row for each alarm's life, kept with what is to be told of it in
 * the same commit. An alarm of the same well, pump and kind that overlaps one already told is that
 * one.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { AlarmRow } from '../alarms/lifecycle/alarm-row.ts';
import { standing } from '../alarms/lifecycle/alarms.ts';
import { knownAlarmId } from '../alarms/lifecycle/known-alarm.ts';
import type { Act } from '../domain/act.ts';
import { formatTime } from '../well/emit.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { KNOWN_ALARM_WINDOW_MS } from './settling.ts';
import type { WellPipeline } from './well-pipeline.ts';

interface AlarmIdentity {
  well?: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: string;
}

export const keyOf = (a: AlarmIdentity): string =>
  `${a.well ?? a.site ?? ''}/${a.pump ?? ''}/${a.node ?? ''}/${a.alarm}`;

export function alarmRowsOf(fleet: Fleet, well: string): AlarmRow[] {
  const known = fleet.knownAlarms.get(well);
  if (known) return known;
  const rows: AlarmRow[] = [];
  fleet.knownAlarms.set(well, rows);
  return rows;
}

function activeRow(fleet: Fleet, event: AlarmEvent): AlarmRow | undefined {
  const key = keyOf(event);
  return alarmRowsOf(fleet, event.well ?? event.site ?? '').findLast(
    (row) => row.clearedMs === undefined && row.withdrawnMs === undefined && keyOf(row) === key,
  );
}

/** Keeps the row; `news` is the line to be told of, if any, with the row as it was before it. */
export function keepRow(
  emit: EmitEffect,
  row: AlarmRow,
  news?: { event: AlarmEvent; before?: AlarmRow },
): void {
  emit({ is: 'alarm', row: { ...row }, ...(news && { news }) });
}

/** A line of the engine, as time goes on. */
export function publishEvent(fleet: Fleet, event: AlarmEvent, nowMs: number, emit: EmitEffect): void {
  const atMs = Date.parse(event.at);
  const row = activeRow(fleet, event);
  const before = row && { ...row };
  switch (event.state) {
    case 'raised':
      if (row) {
        row.event = event;
        keepRow(emit, row);
      } else raiseAlarm(fleet, event, emit);
      break;
    case 'changed':
      if (!row) break;
      row.event = event;
      keepRow(emit, row, { event, ...(before && { before }) });
      break;
    case 'cleared':
      if (!row) break;
      row.clearedMs = atMs;
      // Nobody else knows the life of an alarm that no engine has said.
      if (SERVER_ALARMS.has(row.alarm)) row.state = 'normal';
      keepRow(emit, row, { event, ...(before && { before }) });
      break;
    case 'withdrawn':
      break;
    default:
      event.state satisfies never;
  }
  pruneRows(fleet, event.well ?? event.site ?? '', nowMs);
}

/**
 * An alarm that was withdrawn and turns out right after all is told as a new one, though it began
 * at the same moment.
 */
export function uniqueId(rows: readonly AlarmRow[], id: string): string {
  let free = id;
  for (let n = 2; rows.some((row) => row.id === free); n++) free = `${id}/${n}`;
  return free;
}

function raiseAlarm(fleet: Fleet, event: AlarmEvent, emit: EmitEffect): void {
  const well = event.well ?? event.site ?? '';
  const sinceMs = Date.parse(event.since ?? event.at);
  const row: AlarmRow = {
    id: uniqueId(
      alarmRowsOf(fleet, well),
      knownAlarmId({ well, pump: event.pump, node: event.node, alarm: event.alarm, sinceMs }),
    ),
    well,
    ...(event.site !== undefined && { site: event.site }),
    ...(event.pump !== undefined && { pump: event.pump }),
    ...(event.node !== undefined && { node: event.node }),
    alarm: event.alarm,
    state: 'unacknowledged',
    sinceMs,
    raisedMs: Date.parse(event.at),
    event,
  };
  alarmRowsOf(fleet, well).push(row);
  keepRow(emit, row, { event });
}

/** Whether any alarm of this well has a life that may still change. */
export function hasOpenRows(fleet: Fleet, pipeline: WellPipeline): boolean {
  const rows = fleet.knownAlarms.get(pipeline.well);
  return rows !== undefined && rows.some((row) => row.state !== 'normal');
}

/** What the alarms' life states are now, after acts or lines. */
export function syncStates(fleet: Fleet, pipeline: WellPipeline, emit: EmitEffect): void {
  const shown = new Map(
    standing(pipeline.state.alarms).map((s) => [keyOf({ ...s, well: pipeline.well }), s]),
  );
  for (const row of alarmRowsOf(fleet, pipeline.well)) {
    const now = shown.get(keyOf(row));
    const over = row.clearedMs !== undefined || row.withdrawnMs !== undefined;
    const state =
      now && (!over || now.state === 'returned-unacknowledged') ? now.state : over ? 'normal' : row.state;
    if (row.state === state && row.shelvedUntilMs === now?.shelvedUntilMs) continue;
    row.state = state;
    if (now?.shelvedUntilMs === undefined) delete row.shelvedUntilMs;
    else row.shelvedUntilMs = now.shelvedUntilMs;
    keepRow(emit, row);
  }
}

/** Said by ourselves and not by the well's engine. */
export const SERVER_ALARMS: ReadonlySet<string> = new Set(['not-watched', 'site-silent']);

function pruneRows(fleet: Fleet, well: string, nowMs: number): void {
  const rows = alarmRowsOf(fleet, well);
  const remembered = rows.filter(
    (row) => (row.clearedMs ?? row.withdrawnMs ?? nowMs) > nowMs - KNOWN_ALARM_WINDOW_MS,
  );
  if (remembered.length < rows.length) fleet.knownAlarms.set(well, remembered);
}

/** The watching goes on: what was said of its breaking is over. */
export function clearNotWatched(fleet: Fleet, pipeline: WellPipeline, nowMs: number, emit: EmitEffect): void {
  const { well } = pipeline;
  const row = alarmRowsOf(fleet, well).find((r) => r.alarm === 'not-watched' && r.clearedMs === undefined);
  if (!row) return;
  publishEvent(
    fleet,
    { event: 'alarm', well, alarm: 'not-watched', state: 'cleared', at: formatTime(nowMs) },
    nowMs,
    emit,
  );
}

/** Who saw an alarm is kept with the alarm. */
export function recordAcknowledgment(
  fleet: Fleet,
  act: Extract<Act, { kind: 'acknowledged' }>,
  { atMs, by }: { atMs: number; by?: string },
  emit: EmitEffect,
): void {
  for (const row of fleet.knownAlarms.get(act.well) ?? []) {
    if (row.alarm !== act.alarm || (act.pump !== undefined && row.pump !== act.pump)) continue;
    if (row.acknowledgedMs !== undefined || row.withdrawnMs !== undefined) continue;
    row.acknowledgedMs = atMs;
    if (row.site !== undefined) row.state = row.clearedMs === undefined ? 'acknowledged' : 'normal';
    if (by !== undefined) row.acknowledgedBy = by;
    keepRow(emit, row);
  }
}
