/**
 * One fault, one alarm: which alarm is a symptom of which. Where an alarm stands that explains
 * another, the other is suppressed by design: it is kept and shown with the one that explains it,
 * and nobody is told twice. The table is physics said in words: a pump whose contacts stick runs on
 * (long-run) because pressure has no end (over-pressure); a tank without air makes short cycles,
 * many starts, and a changed habit.
 */
import { CATALOGUE } from '../../../../shared/alarms/catalogue.ts';
import type { AlarmKind, Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { AlarmEntry } from './alarm-entry.ts';

/** Alarms of one pump told at one time: the fault's own and, at most, one more. */
const MAX_NOTIFIED_PER_PUMP = 2;
const PRIORITY_RANK: Record<Priority, number> = { now: 2, soon: 1, note: 0 };

/** What an alarm is asked by: an entry, or as much of it as there is. */
export type Explained = Pick<AlarmEntry, 'alarm' | 'priority'> & Partial<Pick<AlarmEntry, 'pump' | 'causes'>>;

/**
 * The standing alarm of which a new one is a symptom, or undefined where it is told on its own.
 * Beside the table, two told alarms of one pump are enough: a third is told only where it is more
 * urgent than both.
 */
export function explainedBy(one: Explained, entries: readonly AlarmEntry[]): AlarmKind | undefined {
  const { alarm, priority, pump } = one;
  if (isAlwaysReported(alarm, priority)) return undefined;
  const explaining = explainedByTable(one, entries);
  if (explaining !== undefined) return explaining;
  if (CATALOGUE[alarm].neverGrouped) return undefined;
  const notified = entries.filter(
    (entry) => isActiveNearby(entry, alarm, pump) && entry.notified && !CATALOGUE[entry.alarm].neverGrouped,
  );
  if (notified.length < MAX_NOTIFIED_PER_PUMP) return undefined;
  const urgent = notified.every((entry) => PRIORITY_RANK[entry.priority] < PRIORITY_RANK[priority]);
  return urgent ? undefined : notified[0]?.alarm;
}

/**
 * The standing alarm that explains this one by the table. What is less urgent explains nothing: a
 * person who was told to see to a pump within days must hear that it now runs on without an end.
 */
export function explainedByTable(one: Explained, entries: readonly AlarmEntry[]): AlarmKind | undefined {
  const { alarm, priority, pump } = one;
  if (isAlwaysReported(alarm, priority)) return undefined;
  return entries.find(
    (entry) =>
      isActiveNearby(entry, alarm, pump) &&
      entry.state !== 'suppressed-by-design' &&
      // Two do not explain each other.
      entry.symptomOf !== alarm &&
      CATALOGUE[alarm].explainedBy.includes(entry.alarm) &&
      PRIORITY_RANK[entry.priority] >= PRIORITY_RANK[priority] &&
      isRelevant(entry, one),
  )?.alarm;
}

function isAlwaysReported(alarm: AlarmKind, priority: Priority): boolean {
  return priority === 'now' && CATALOGUE[alarm].reportedWhileNow === true;
}

function isActiveNearby(entry: AlarmEntry, alarm: AlarmKind, pump: string | undefined): boolean {
  return (
    entry.active &&
    entry.alarm !== alarm &&
    // Power that is back explains nothing: a breaker that tripped as it came is news.
    !(entry.alarm === 'power-lost' && entry.clearSinceMs !== undefined) &&
    (entry.pump === pump || entry.pump === undefined || pump === undefined)
  );
}

/**
 * A sensor explains only what is read from it: a thermometer that broke must not silence a leak.
 * Frost explains a gauge whose line froze, and no clamp that fell off.
 */
function isRelevant(entry: AlarmEntry, { alarm, causes }: Explained): boolean {
  if (entry.alarm === 'freeze-risk') return causes?.[0]?.cause !== 'clamp-off';
  if (entry.alarm !== 'sensor-fault') return true;
  const { currentOnly = false } = CATALOGUE[alarm];
  const { channel } = entry.evidence;
  const lead = entry.causes[0]?.cause;
  // Without a current nothing is known of runs, and with that of nothing.
  if (typeof channel === 'string' ? channel.includes('current') : lead === 'clamp-off') return true;
  if (typeof channel === 'string' && !channel.includes('pressure')) return false;
  // A card that is wrong about the motor says nothing of the gauge.
  if (lead === 'bad-card' && entry.evidence['maxAmps'] !== undefined) return currentOnly;
  return !currentOnly;
}
