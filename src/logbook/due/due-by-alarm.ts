/** Alarms that ask for the check which looks into them. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { DueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { CheckCompletion } from './check-completions.ts';
import type { DueTrigger, DueInput } from './due.ts';

const CHECKS_FOR_ALARM: Partial<Record<DueKind, readonly [alarm: string, reason: string][]>> = {
  precharge: [
    ['tank-air-lost', 'An alarm says that the tank has lost air.'],
    ['tank-overcharged', 'An alarm says that the tank holds too much air.'],
  ],
  'relief-valve': [['over-pressure', 'An alarm says that the pressure is too high.']],
  'node-calibration': [['sensor-fault', 'An alarm says that a sensor and the card cannot both be right.']],
  freeze: [['freeze-risk', 'An alarm says that frost is near.']],
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
    return [{ date: localDate(found.sinceMs, card.timeZone), reason }];
  });
}
