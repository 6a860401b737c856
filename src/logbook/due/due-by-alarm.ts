/** Alarms that ask for the check which looks into them. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { DueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { CheckCompletion } from './check-completions.ts';
import type { DueTrigger, DueInput } from './due.ts';
import { texts } from './texts.ts';

type AlarmReason = keyof ReturnType<typeof texts>['byAlarm'];

const CHECKS_FOR_ALARM: Partial<Record<DueKind, readonly [alarm: string, reason: AlarmReason][]>> = {
  precharge: [
    ['tank-air-lost', 'airLost'],
    ['tank-overcharged', 'overcharged'],
  ],
  'relief-valve': [['over-pressure', 'highPressure']],
  'node-calibration': [['sensor-fault', 'sensorAgainstCard']],
  freeze: [['freeze-risk', 'frost']],
  'after-dry-well': [['dry-run', 'ranDry']],
};

/** An alarm that stands asks for the check that looks into it, from the day on which it began. */
export function alarmTriggers(
  kind: DueKind,
  { activeAlarms, card }: DueInput,
  last: CheckCompletion | undefined,
): DueTrigger[] {
  return (CHECKS_FOR_ALARM[kind] ?? []).flatMap(([alarm, reason]) => {
    const found = activeAlarms.find((one) => one.alarm === alarm);
    if (!found || (last?.completed && last.atMs >= found.sinceMs)) return [];
    return [{ date: localDate(found.sinceMs, card.timeZone), reason: texts().byAlarm[reason] }];
  });
}
