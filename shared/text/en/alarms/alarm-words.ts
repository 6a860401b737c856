/** The words of every alarm, in one table: an alarm without words does not compile. */
import { ELECTRIC_ALARMS } from './alarms-electric.ts';
import { PUMP_ALARMS } from './alarms-pump.ts';
import { WATCHING_ALARMS } from './alarms-watching.ts';
import { WATER_ALARMS } from './alarms-water.ts';
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './text-shapes.ts';

export const ALARM_WORDS: Record<AlarmKind, AlarmWords> = {
  ...PUMP_ALARMS,
  ...ELECTRIC_ALARMS,
  ...WATER_ALARMS,
  ...WATCHING_ALARMS,
};
