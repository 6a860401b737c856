/** The short title of an alarm, from the wording that the whole project shares. */
import { ALARM_WORDS } from './alarms/alarm-words.ts';
import type { AlarmKind } from './alarms/kinds.ts';

/** A few words without a full stop: "Pump starts too often". */
export function alarmTitle(kind: AlarmKind): string {
  return ALARM_WORDS[kind].title;
}
