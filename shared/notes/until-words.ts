/**
 * An end in words: "the end of Sun 19 July" where it is a midnight, which nobody reads as the day
 * before; else the moment in full.
 */
import { momentWords } from '../text/en/time-words.ts';
import type { UnitSystem } from '../quantity/format-quantity.ts';
import { MINUTE_MS } from '../units/duration.ts';
import { localMoment } from './local-moment.ts';
import { texts } from './texts.ts';

export function untilWords(untilMs: number, timeZone: string, system: UnitSystem, nowMs: number): string {
  const { hour, minute } = localMoment(untilMs, timeZone);
  if (hour !== 0 || minute !== 0) return momentWords(untilMs, timeZone, system, nowMs);
  const [day] = momentWords(untilMs - MINUTE_MS, timeZone, system, nowMs).split(', ');
  return texts().endOf(day ?? '');
}
