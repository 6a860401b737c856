/** Alarms that ask for the check which looks into them. */
import { localDate } from '../../shared/api/time-words.ts';
import type { DueKind } from '../../shared/words/due-words.ts';
import type { Done } from './check-done.ts';
import type { Call, DueInput } from './due.ts';

const ALARM_CALLS: Partial<Record<DueKind, readonly [alarm: string, because: string][]>> = {
  precharge: [
    ['tank-air-lost', 'An alarm says that the tank has lost air.'],
    ['tank-overcharged', 'An alarm says that the tank holds too much air.'],
  ],
  'relief-valve': [['over-pressure', 'An alarm says that the pressure is too high.']],
  'node-calibration': [['sensor-fault', 'An alarm says that a sensor and the card cannot both be right.']],
  freeze: [['freeze-risk', 'An alarm says that frost is near.']],
};

/** An alarm that stands asks for the check that looks into it, from the day on which it began. */
export function alarmCalls(kind: DueKind, { standing, card }: DueInput, last: Done | undefined): Call[] {
  return (ALARM_CALLS[kind] ?? []).flatMap(([alarm, because]) => {
    const found = standing.find((one) => one.alarm === alarm);
    if (!found || (last?.counts && last.atMs >= found.sinceMs)) return [];
    return [{ on: localDate(found.sinceMs, card.timeZone), because }];
  });
}
