/**
 * An alarm as it was told and kept: the least of the store's row that settling late data needs.
 * What is said of it stays as it was said, whatever comes later.
 */
import type { AlarmEvent } from '../../../../shared/api/events.ts';
import { URGENCIES, urgencyOf } from '../../../../shared/text/en/alarms/urgency.ts';

export interface KnownAlarm {
  id: string;
  well: string;
  pump?: string;
  node?: string;
  alarm: string;
  sinceMs: number;
  raisedMs: number;
  clearedMs?: number;
  withdrawnMs?: number;
  /** The last raised or changed line, whole. */
  event: AlarmEvent;
}

/**
 * Made from what happened and not from a counter, so that it is the same on every run and every
 * machine.
 */
export function knownAlarmId(alarm: {
  well: string;
  pump?: string | undefined;
  node?: string | undefined;
  alarm: string;
  sinceMs: number;
}): string {
  return `${alarm.well}/${alarm.pump ?? alarm.node ?? '-'}/${alarm.alarm}/${alarm.sinceMs}`;
}

/** How urgent, larger is more. */
export function priorityRank({ alarm, priority, evidence }: AlarmEvent): number {
  if (priority === undefined) return -1;
  return URGENCIES.length - URGENCIES.indexOf(urgencyOf({ alarm, priority, ...(evidence && { evidence }) }));
}
