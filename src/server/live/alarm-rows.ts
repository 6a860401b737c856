/**
 * Alarms on their way to people: a row for each alarm's life, kept with what is to be told of it in
 * the same commit. An alarm of the same well, pump and kind that overlaps one already told is that
 * one.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { standing } from '../../core/alarms/lifecycle/alarms.ts';
import {
  rerunAlarms,
  reconcile,
  type RerunAlarm,
  type Reconciliation,
} from '../../core/alarms/lifecycle/reconcile.ts';
import { knownAlarmId } from '../../core/alarms/lifecycle/known-alarm.ts';
import { KNOWN_ALARM_WINDOW_MS } from '../../core/fleet/settling.ts';
import { formatTime } from '../../core/well/emit.ts';
import type { AlarmRow } from '../../store/store.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import type { LiveState } from './state.ts';

interface AlarmIdentity {
  well?: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: string;
}

const keyOf = (a: AlarmIdentity): string =>
  `${a.well ?? a.site ?? ''}/${a.pump ?? ''}/${a.node ?? ''}/${a.alarm}`;

function alarmRowsOf(live: LiveState, well: string): AlarmRow[] {
  const known = live.knownAlarms.get(well);
  if (known) return known;
  const rows: AlarmRow[] = [];
  live.knownAlarms.set(well, rows);
  return rows;
}

function activeRow(live: LiveState, event: AlarmEvent): AlarmRow | undefined {
  const key = keyOf(event);
  return alarmRowsOf(live, event.well ?? event.site ?? '').findLast(
    (row) => row.clearedMs === undefined && row.withdrawnMs === undefined && keyOf(row) === key,
  );
}

/** Keeps the row; `event` is the line to be told of, if any, and `before` the row as it was. */
function storeRow(
  live: LiveState,
  row: AlarmRow,
  nowMs: number,
  event?: AlarmEvent,
  before?: AlarmRow,
): void {
  live.changes.push({ change: 'alarm', row: { ...row } });
  if (!event) return;
  if (live.hasViewers) live.liveEvents.push({ alarm: { ...row } });
  const change = { after: row, event: event, ...(before && { before }) };
  for (const notice of live.options.notify(change, { nowMs, cards: live.cards }))
    live.changes.push({ change: 'notice', row: notice });
}

/** A line of the engine, as time goes on. */
export function publishEvent(live: LiveState, event: AlarmEvent, nowMs: number): void {
  const atMs = Date.parse(event.at);
  const row = activeRow(live, event);
  const before = row && { ...row };
  switch (event.state) {
    case 'raised':
      if (row) {
        row.event = event;
        storeRow(live, row, nowMs);
      } else raiseAlarm(live, event, nowMs);
      break;
    case 'changed':
      if (!row) break;
      row.event = event;
      storeRow(live, row, nowMs, event, before);
      break;
    case 'cleared':
      if (!row) break;
      row.clearedMs = atMs;
      // Nobody else knows the life of an alarm that no engine has said.
      if (SERVER_ALARMS.has(row.alarm)) row.state = 'normal';
      storeRow(live, row, nowMs, event, before);
      break;
    case 'withdrawn':
      break;
    default:
      event.state satisfies never;
  }
  pruneRows(live, event.well ?? event.site ?? '', nowMs);
}

/**
 * An alarm that was withdrawn and turns out right after all is told as a new one, though it began
 * at the same moment.
 */
function uniqueId(rows: readonly AlarmRow[], id: string): string {
  let free = id;
  for (let n = 2; rows.some((row) => row.id === free); n++) free = `${id}/${n}`;
  return free;
}

function raiseAlarm(live: LiveState, event: AlarmEvent, nowMs: number): void {
  const well = event.well ?? event.site ?? '';
  const sinceMs = Date.parse(event.since ?? event.at);
  const row: AlarmRow = {
    id: uniqueId(
      alarmRowsOf(live, well),
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
  alarmRowsOf(live, well).push(row);
  storeRow(live, row, nowMs, event);
}

/** Whether any alarm of this well has a life that may still change. */
export function hasOpenRows(live: LiveState, pipeline: WellPipeline): boolean {
  const rows = live.knownAlarms.get(pipeline.well);
  return rows !== undefined && rows.some((row) => row.state !== 'normal');
}

/** What the alarms' life states are now, after acts or lines. */
export function syncStates(live: LiveState, pipeline: WellPipeline): void {
  const shown = new Map(
    standing(pipeline.state.alarms).map((s) => [keyOf({ ...s, well: pipeline.well }), s]),
  );
  for (const row of alarmRowsOf(live, pipeline.well)) {
    const now = shown.get(keyOf(row));
    const over = row.clearedMs !== undefined || row.withdrawnMs !== undefined;
    const state =
      now && (!over || now.state === 'returned-unacknowledged') ? now.state : over ? 'normal' : row.state;
    if (row.state === state && row.shelvedUntilMs === now?.shelvedUntilMs) continue;
    row.state = state;
    if (now?.shelvedUntilMs === undefined) delete row.shelvedUntilMs;
    else row.shelvedUntilMs = now.shelvedUntilMs;
    live.changes.push({ change: 'alarm', row: { ...row } });
  }
}

/** Said by ourselves and not by the well's engine. */
const SERVER_ALARMS: ReadonlySet<string> = new Set(['not-watched', 'site-silent']);

/** Up to when anything was told of this well: 0 for nothing. What is told was passed. */
export function knownToMs(live: LiveState, well: string): number {
  let toMs = 0;
  for (const row of alarmRowsOf(live, well)) {
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
  live: LiveState,
  pipeline: WellPipeline,
  events: readonly AlarmEvent[],
  window: { fromMs: number; toMs: number; nowMs: number; activeBefore: ReadonlySet<string> },
): void {
  const rows = alarmRowsOf(live, pipeline.well).filter((row) => !SERVER_ALARMS.has(row.alarm));
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
      const id = uniqueId(alarmRowsOf(live, pipeline.well), settled.id);
      const fresh: AlarmRow = { ...settled, id, state: 'unacknowledged' };
      alarmRowsOf(live, pipeline.well).push(fresh);
      storeRow(live, fresh, window.nowMs, eventFor(fresh, what, window.nowMs));
      continue;
    }
    const before = { ...row };
    row.event = settled.event;
    if (settled.clearedMs === undefined) delete row.clearedMs;
    else row.clearedMs = settled.clearedMs;
    if (settled.withdrawnMs !== undefined) row.withdrawnMs = window.nowMs;
    storeRow(live, row, window.nowMs, eventFor(row, what, window.nowMs), before);
  }
  syncStates(live, pipeline);
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

function pruneRows(live: LiveState, well: string, nowMs: number): void {
  const rows = alarmRowsOf(live, well);
  const remembered = rows.filter(
    (row) => (row.clearedMs ?? row.withdrawnMs ?? nowMs) > nowMs - KNOWN_ALARM_WINDOW_MS,
  );
  if (remembered.length < rows.length) live.knownAlarms.set(well, remembered);
}

/** The watching goes on: what was said of its breaking is over. */
export function clearNotWatched(live: LiveState, pipeline: WellPipeline, nowMs: number): void {
  const { well } = pipeline;
  const row = alarmRowsOf(live, well).find((r) => r.alarm === 'not-watched' && r.clearedMs === undefined);
  if (!row) return;
  publishEvent(
    live,
    { event: 'alarm', well, alarm: 'not-watched', state: 'cleared', at: formatTime(nowMs) },
    nowMs,
  );
}
