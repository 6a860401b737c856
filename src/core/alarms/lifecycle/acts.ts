/**
 * What people do to alarms: acknowledge, shelve for a time, take the well out of service, open and
 * close a visit, lay it up. Acts that mean nothing in the state they meet (acknowledging what does
 * not stand) change nothing.
 */
import type { Act } from '../../domain/act.ts';
import { NO_PUMP, type AlarmEntry, type AlarmsState, type Suspension } from './alarm-entry.ts';
import { alarmEvent, type EmitAlarm } from './alarm-event.ts';
import { applyStep } from './apply-evaluation.ts';

/** Takes an act of a person; acts that are not about alarms are ignored. */
export function applyAlarmAct(state: AlarmsState, act: Act, atMs: number, emit: EmitAlarm): void {
  switch (act.kind) {
    case 'acknowledged':
      for (const entry of entriesFor(state, act)) {
        applyStep(entry, 'acknowledge', atMs);
        dropNormal(state);
      }
      break;
    case 'shelved':
      for (const entry of entriesFor(state, act)) shelve(entry, act.untilMs, atMs);
      break;
    case 'visit-opened':
      suspend(state, { is: 'visit' }, atMs);
      break;
    case 'visit-closed':
      clearAll(state, atMs, emit);
      state.suspensions = state.suspensions.filter((away) => away.is !== 'visit');
      if (state.suspensions.length === 0) resetWatching(state, atMs);
      break;
    case 'out-of-service':
    case 'laid-up':
      clearAll(state, atMs, emit);
      suspend(
        state,
        act.kind === 'laid-up'
          ? { is: 'laid-up', ...(act.untilMs !== undefined && { untilMs: act.untilMs }) }
          : { is: 'out-of-service' },
        atMs,
      );
      break;
    case 'back-in-service':
      endSuspension(state, 'out-of-service', atMs);
      endSuspension(state, 'laid-up', atMs);
      break;
    case 'card-changed':
      dropPumps(state, new Set(act.card.pumps.map(({ id }) => id)), atMs, emit);
      break;
    case 'pinned':
    case 'calibrated':
    case 'expected':
    case 'server-away':
    case 'tick':
      break;
    default:
      act satisfies never;
  }
}

/** Lay-ups whose time is over end by themselves. */
export function endExpiredSuspensions(state: AlarmsState, atMs: number): void {
  const over = (away: Suspension): boolean =>
    away.is === 'laid-up' && away.untilMs !== undefined && away.untilMs <= atMs;
  if (!state.suspensions.some(over)) return;
  state.suspensions = state.suspensions.filter((away) => !over(away));
  if (state.suspensions.length === 0) resetWatching(state, atMs);
}

function entriesFor(state: AlarmsState, act: { pump?: string; alarm: string }): AlarmEntry[] {
  return Object.values(state.entries).filter(
    (entry) =>
      entry.alarm === act.alarm &&
      (act.pump === undefined || entry.pump === undefined || entry.pump === act.pump),
  );
}

function shelve(entry: AlarmEntry, untilMs: number, atMs: number): void {
  if (untilMs <= atMs || !applyStep(entry, 'shelve', atMs)) return;
  entry.shelvedUntilMs = untilMs;
}

function suspend(state: AlarmsState, suspension: Suspension, atMs: number): void {
  state.suspensions = [...state.suspensions.filter((other) => other.is !== suspension.is), suspension];
  for (const entry of Object.values(state.entries)) applyStep(entry, 'remove', atMs);
}

function endSuspension(state: AlarmsState, is: Suspension['is'], atMs: number): void {
  if (!state.suspensions.some((away) => away.is === is)) return;
  state.suspensions = state.suspensions.filter((away) => away.is !== is);
  if (state.suspensions.length === 0) resetWatching(state, atMs);
}

/** What was raised before is over, and what the watches remember is of another well. */
function resetWatching(state: AlarmsState, atMs: number): void {
  state.watchMemories = {};
  state.evaluations = {};
  state.entries = {};
  state.resetAtMs = atMs;
}

/**
 * A visit's end, and a well taken out of service, clear what stands: what is still wrong will rise
 * again from fresh evidence.
 */
function clearAll(state: AlarmsState, atMs: number, emit: EmitAlarm): void {
  for (const entry of Object.values(state.entries)) {
    if (entry.notified) emit(alarmEvent(state.well, entry, 'cleared', atMs));
  }
  state.entries = {};
}

/**
 * A pump that is not on the card any more has no alarms: nothing will ever be heard of it that
 * could end them.
 */
function dropPumps(state: AlarmsState, pumps: ReadonlySet<string>, atMs: number, emit: EmitAlarm): void {
  for (const [key, entry] of Object.entries(state.entries)) {
    if (entry.pump === undefined || pumps.has(entry.pump)) continue;
    if (entry.notified) emit(alarmEvent(state.well, entry, 'cleared', atMs));
    delete state.entries[key];
  }
  for (const byKey of [state.watchMemories, state.evaluations]) {
    for (const key of Object.keys(byKey)) {
      const pump = key.split('/')[1] ?? NO_PUMP;
      if (pump !== NO_PUMP && !pumps.has(pump)) delete byKey[key];
    }
  }
}

function dropNormal(state: AlarmsState): void {
  for (const [key, entry] of Object.entries(state.entries))
    if (entry.state === 'normal' && !entry.active) delete state.entries[key];
}
