/**
 * A run that is only too long may be meant: a pool, a new garden. So it is asked about, and becomes
 * urgent when nobody answers for hours, or when it goes on through an hour of the night: who leaves
 * a hose open means it by day. An acknowledgement is an answer for some hours.
 */
import { HOUR_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { localHour } from '../../baseline/habit.ts';
import type { Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Scene } from '../scene.ts';

/** As in the contract's table of alarms. */
const MAX_UNANSWERED_MS = 4 * HOUR_MS;
const NIGHT_BEGINS_H = 22;
const NIGHT_ENDS_H = 6;
const MAX_NIGHT_MINUTES = 60;

/** The part of a watch's memory that holds since when a run is asked about. */
export interface AskedMemory {
  askedMs?: number;
  /** Minutes of the night since then. */
  nightMinutes?: number;
}

/** Asked at each minute of the run while it is too long. */
export function priorityWhileAsked(scene: Scene, memory: AskedMemory): Priority {
  memory.askedMs ??= scene.atMs;
  if (memory.askedMs < scene.atMs && isNight(scene)) memory.nightMinutes = (memory.nightMinutes ?? 0) + 1;
  const { acknowledgedMs = -Infinity } = scene;
  if (scene.atMs - acknowledgedMs < MAX_UNANSWERED_MS) return 'soon';
  const isUnanswered = scene.atMs - memory.askedMs >= MAX_UNANSWERED_MS;
  return isUnanswered || (memory.nightMinutes ?? 0) >= MAX_NIGHT_MINUTES ? 'now' : 'soon';
}

export function forgetAsked(memory: AskedMemory): void {
  delete memory.askedMs;
  delete memory.nightMinutes;
}

/**
 * The minute that has just ended. UTC stands on a card that names no time zone: no night is known.
 */
function isNight({ well, atMs }: Scene): boolean {
  if (well.card.timeZone === 'UTC') return false;
  const { dayStartedMs: startMs, dayEndsMs: endMs } = well;
  const hour = localHour({ startMs, endMs }, atMs - MINUTE_MS);
  return hour >= NIGHT_BEGINS_H || hour < NIGHT_ENDS_H;
}
