/**
 * Alarms on their way to people: a row for each alarm's life, kept with what is to be told of it in the same commit. An alarm of the
 * same well, pump and kind that overlaps one already told is that one.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { standing, tellOutside } from '../../alarm/alarms.ts';
import { madeAlarms, reconcile, type MadeAlarm, type Settled } from '../../alarm/reconcile.ts';
import { toldId } from '../../alarm/told.ts';
import { notWatchedFinding } from '../../watch/not-watched.ts';
import { printTime } from '../../engine/emit.ts';
import type { AlarmRow } from '../../store/store.ts';
import type { Line } from './line.ts';
import type { LiveState } from './state.ts';

/** Ended alarms are remembered for the settling time and a day, so that late data finds them. */
const REMEMBER_MS = 8 * 86_400_000;

interface Named {
  well?: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: string;
}

const keyOf = (a: Named): string => `${a.well ?? a.site ?? ''}/${a.pump ?? ''}/${a.node ?? ''}/${a.alarm}`;

function rowsOf(live: LiveState, well: string): AlarmRow[] {
  const known = live.told.get(well);
  if (known) return known;
  const rows: AlarmRow[] = [];
  live.told.set(well, rows);
  return rows;
}

function standingRow(live: LiveState, event: AlarmEvent): AlarmRow | undefined {
  const key = keyOf(event);
  return rowsOf(live, event.well ?? event.site ?? '').findLast(
    (row) => row.clearedMs === undefined && row.withdrawnMs === undefined && keyOf(row) === key,
  );
}

/** Keeps the row; `said` is the line to be told of, if any, and `before` the row as it was. */
function put(live: LiveState, row: AlarmRow, nowMs: number, said?: AlarmEvent, before?: AlarmRow): void {
  live.changes.push({ change: 'alarm', row: { ...row } });
  if (!said) return;
  if (live.looked) live.shown.push({ alarm: { ...row } });
  const change = { after: row, event: said, ...(before && { before }) };
  for (const notice of live.options.tell(change, nowMs)) live.changes.push({ change: 'notice', row: notice });
}

/** A line of the engine, as time goes on. */
export function tellEvent(live: LiveState, event: AlarmEvent, nowMs: number): void {
  const atMs = Date.parse(event.at);
  const row = standingRow(live, event);
  const before = row && { ...row };
  switch (event.state) {
    case 'raised':
      if (row) {
        row.event = event;
        put(live, row, nowMs);
      } else raise(live, event, nowMs);
      break;
    case 'changed':
      if (!row) break;
      row.event = event;
      put(live, row, nowMs, event, before);
      break;
    case 'cleared':
      if (!row) break;
      row.clearedMs = atMs;
      // Nobody else knows the life of an alarm that no engine has said.
      if (OUTSIDE.has(row.alarm)) row.state = 'normal';
      put(live, row, nowMs, event, before);
      break;
    case 'withdrawn':
      break;
    default:
      event.state satisfies never;
  }
  forget(live, event.well ?? event.site ?? '', nowMs);
}

/** An alarm that was withdrawn and turns out right after all is told as a new one, though it began at the same moment. */
function freeId(rows: readonly AlarmRow[], id: string): string {
  let free = id;
  for (let n = 2; rows.some((row) => row.id === free); n++) free = `${id}/${n}`;
  return free;
}

function raise(live: LiveState, event: AlarmEvent, nowMs: number): void {
  const well = event.well ?? event.site ?? '';
  const sinceMs = Date.parse(event.since ?? event.at);
  const row: AlarmRow = {
    id: freeId(
      rowsOf(live, well),
      toldId({ well, pump: event.pump, node: event.node, alarm: event.alarm, sinceMs }),
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
  rowsOf(live, well).push(row);
  put(live, row, nowMs, event);
}

/** Whether any alarm of this well has a life that may still change. */
export function hasOpenRows(live: LiveState, line: Line): boolean {
  const rows = live.told.get(line.well);
  return rows !== undefined && rows.some((row) => row.state !== 'normal');
}

/** What the alarms' life states are now, after acts or lines. */
export function syncStates(live: LiveState, line: Line): void {
  const shown = new Map(standing(line.state.alarms).map((s) => [keyOf({ ...s, well: line.well }), s]));
  for (const row of rowsOf(live, line.well)) {
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
const OUTSIDE: ReadonlySet<string> = new Set(['not-watched', 'site-silent']);

/** Up to when anything was told of this well: 0 for nothing. What is told was passed. */
export function toldToMs(live: LiveState, well: string): number {
  let toMs = 0;
  for (const row of rowsOf(live, well)) {
    if (row.withdrawnMs !== undefined || OUTSIDE.has(row.alarm)) continue;
    toMs = Math.max(toMs, row.raisedMs, row.clearedMs ?? 0);
  }
  return toMs;
}

/** The alarms that a well's state knows as told. */
export function toldKeys(line: Line): Set<string> {
  return new Set(
    standing(line.state.alarms)
      .filter((s) => s.told)
      .map((s) => keyOf({ ...s, well: line.well })),
  );
}

/** After a stretch was run again: what was told is compared with what was made. */
export function tellAgain(
  live: LiveState,
  line: Line,
  events: readonly AlarmEvent[],
  stretch: { fromMs: number; toMs: number; nowMs: number; stood: ReadonlySet<string> },
): void {
  const rows = rowsOf(live, line.well).filter((row) => !OUTSIDE.has(row.alarm));
  const told = rows.filter(
    (row) =>
      row.withdrawnMs === undefined &&
      row.raisedMs <= stretch.toMs &&
      (row.clearedMs === undefined || row.clearedMs >= stretch.fromMs),
  );
  const made = [...stoodBefore(told, events, stretch), ...madeAlarms(events)];
  for (const { what, told: settled } of reconcile(told, made, {
    fromMs: stretch.fromMs,
    toMs: stretch.toMs + 1,
  })) {
    const row = what === 'raised' ? undefined : rows.find((r) => r.id === settled.id);
    if (!row) {
      const id = freeId(rowsOf(live, line.well), settled.id);
      const fresh: AlarmRow = { ...settled, id, state: 'unacknowledged' };
      rowsOf(live, line.well).push(fresh);
      put(live, fresh, stretch.nowMs, lineOf(fresh, what, stretch.nowMs));
      continue;
    }
    const before = { ...row };
    row.event = settled.event;
    if (settled.clearedMs === undefined) delete row.clearedMs;
    else row.clearedMs = settled.clearedMs;
    if (settled.withdrawnMs !== undefined) row.withdrawnMs = stretch.nowMs;
    put(live, row, stretch.nowMs, lineOf(row, what, stretch.nowMs), before);
  }
  syncStates(live, line);
}

/** The line that says what settled; nothing is said where nothing changed for people. */
function lineOf(row: AlarmRow, what: Settled['what'], nowMs: number): AlarmEvent | undefined {
  switch (what) {
    case 'kept':
      return undefined;
    case 'raised':
      return row.event;
    case 'changed':
    case 'not-over':
      return { ...row.event, state: 'changed' };
    case 'cleared':
      return { ...bare(row), state: 'cleared', at: printTime(row.clearedMs ?? nowMs) };
    case 'withdrawn':
      return { ...bare(row), state: 'withdrawn', at: printTime(nowMs) };
    default:
      return what satisfies never;
  }
}

/** Who an alarm is of, without what was said of it. */
function bare({ event }: AlarmRow): Omit<AlarmEvent, 'state' | 'at'> {
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
 * Alarms that stood when the stretch began: the new run knows them from its save, and says only how they go on. One that the save
 * does not know was over by then.
 */
function stoodBefore(
  told: readonly AlarmRow[],
  events: readonly AlarmEvent[],
  { fromMs, stood }: { fromMs: number; stood: ReadonlySet<string> },
): MadeAlarm[] {
  return told
    .filter((row) => row.raisedMs < fromMs)
    .map((row) => {
      const mine = events.filter((event) => keyOf(event) === keyOf(row));
      const first = mine.findIndex((event) => event.state === 'cleared' || event.state === 'raised');
      const cleared = mine[first]?.state === 'cleared' ? mine[first] : undefined;
      const changed = mine.slice(0, first < 0 ? mine.length : first).at(-1);
      const { clearedMs: _ended, ...rest } = row;
      if (!stood.has(keyOf(row))) return { ...rest, clearedMs: fromMs - 1 };
      return {
        ...rest,
        event: changed ?? row.event,
        ...(cleared && { clearedMs: Date.parse(cleared.at) }),
      };
    });
}

function forget(live: LiveState, well: string, nowMs: number): void {
  const rows = rowsOf(live, well);
  const kept = rows.filter((row) => (row.clearedMs ?? row.withdrawnMs ?? nowMs) > nowMs - REMEMBER_MS);
  if (kept.length < rows.length) live.told.set(well, kept);
}

/** The watching of this well broke by a fault of our own. */
export function tellNotWatched(live: LiveState, line: Line, why: string, nowMs: number): void {
  const events: AlarmEvent[] = [];
  line.state.alarms.well = line.well;
  tellOutside(line.state.alarms, 'not-watched', notWatchedFinding(nowMs, why), nowMs, (event) =>
    events.push(event),
  );
  for (const event of events) tellEvent(live, event, nowMs);
}

/** The watching goes on: what was said of its breaking is over. */
export function tellWatchedAgain(live: LiveState, line: Line, nowMs: number): void {
  const { well } = line;
  const row = rowsOf(live, well).find((r) => r.alarm === 'not-watched' && r.clearedMs === undefined);
  if (!row) return;
  tellEvent(
    live,
    { event: 'alarm', well, alarm: 'not-watched', state: 'cleared', at: printTime(nowMs) },
    nowMs,
  );
}
