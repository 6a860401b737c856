/** The line that tells a change of an alarm (contract, section 6): raised and changed say all, cleared only what it was. */
import type { AlarmEvent, AlarmState } from '../../../../shared/api/events.ts';
import type { AlarmEntry } from './alarm-entry.ts';

export type EmitAlarm = (event: AlarmEvent) => void;

export function alarmEvent(well: string, entry: AlarmEntry, state: AlarmState, atMs: number): AlarmEvent {
  const named: AlarmEvent = {
    event: 'alarm',
    well,
    ...(entry.pump !== undefined && { pump: entry.pump }),
    ...(entry.node !== undefined && { node: entry.node }),
    alarm: entry.alarm,
    state,
    at: new Date(atMs).toISOString(),
  };
  if (state === 'cleared' || state === 'withdrawn') return named;
  return {
    ...named,
    since: new Date(entry.sinceMs).toISOString(),
    priority: entry.priority,
    why: entry.why,
    evidence: entry.evidence,
    causes: entry.causes,
  };
}
