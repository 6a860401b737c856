/**
 * One fault, one alarm: which alarm is a symptom of which. Where an alarm stands that explains
 * another, the other is suppressed by design: it is kept and shown with the one that explains it,
 * and nobody is told twice. The table is physics said in words: a pump whose contacts stick runs on
 * (long-run) because pressure has no end (over-pressure); a tank without air makes short cycles,
 * many starts, and a changed habit.
 */
import type { AlarmKind, Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { AlarmEntry } from './alarm-entry.ts';

/**
 * Nothing is pumped, or next to nothing: taps run dry, stores fall, runs do not come, and habits
 * change.
 */
const NO_DELIVERY = [
  'power-lost',
  'failed-start',
  'leg-lost',
  'dry-run',
  'no-start',
  'long-run',
  'no-water',
] as const;
/** The tank or the plumbing makes the pump start too often. */
const MANY_STARTS = [
  'tank-air-lost',
  'tank-overcharged',
  'leak',
  'short-cycling',
  'starts-over-limit',
] as const;
/** The pump delivers less than it did. */
const WEAK_DELIVERY = ['slow-fill', 'amps-low', 'cut-out-not-reached', 'level-low'] as const;
/**
 * What is shown may be another well's, or a sensor's own trouble: nothing finer can be read from
 * it.
 */
const UNTRUSTED_SENSORS = ['sensor-fault', 'node-conflict'] as const;

/** Each alarm with those that explain it, where they stand. */
export const EXPLAINED_BY: Record<AlarmKind, readonly AlarmKind[]> = {
  'long-run': ['over-pressure', 'dry-run', 'cut-out-not-reached', 'no-water', 'leg-lost', 'store-low'],
  'dry-run': ['leg-lost', 'no-water', 'long-run'],
  // Not by no-start, whose first step knows of a reset: a motor that is held must not be tried
  // again.
  'failed-start': ['leg-lost', 'power-lost'],
  'no-start': ['power-lost', 'failed-start', 'leg-lost', 'dry-run'],
  'power-lost': [],
  'leg-lost': ['power-lost'],
  'no-water': NO_DELIVERY.filter((kind) => kind !== 'no-water'),
  'no-run': [...NO_DELIVERY, ...UNTRUSTED_SENSORS, 'node-silent', 'site-silent', 'store-low'],
  'store-low': ['power-lost', 'failed-start', 'leg-lost', 'dry-run', 'no-start', 'no-run', 'long-run'],
  'over-pressure': ['long-run', ...UNTRUSTED_SENSORS],
  'short-cycling': [
    ...UNTRUSTED_SENSORS,
    'tank-air-lost',
    'tank-overcharged',
    'leak',
    'failed-start',
    'leg-lost',
    'dry-run',
    'cycle-count',
    'starts-over-limit',
  ],
  'starts-over-limit': [
    ...UNTRUSTED_SENSORS,
    'tank-air-lost',
    'tank-overcharged',
    'leak',
    'short-cycling',
    'failed-start',
    'dry-run',
  ],
  // A leak under the tank lets the pump run out against less pressure, which costs more current.
  'amps-high': [
    ...UNTRUSTED_SENSORS,
    'leg-lost',
    'leg-imbalance',
    'supply-voltage',
    'failed-start',
    'slow-fill',
    'cut-out-not-reached',
    'long-run',
    'over-pressure',
  ],
  'amps-low': [
    ...UNTRUSTED_SENSORS,
    'dry-run',
    'long-run',
    'over-pressure',
    'slow-fill',
    'cut-out-not-reached',
    'level-low',
    'supply-voltage',
    'leg-lost',
    'leg-imbalance',
    'no-water',
  ],
  'leg-imbalance': [...UNTRUSTED_SENSORS, 'leg-lost', 'supply-voltage'],
  'supply-voltage': ['power-lost', 'leg-lost', 'node-conflict'],
  'cut-out-not-reached': [
    ...NO_DELIVERY,
    ...UNTRUSTED_SENSORS,
    'slow-fill',
    'amps-low',
    'level-low',
    'supply-voltage',
    // Without air pressure leaps past cut-out between two readings.
    'tank-air-lost',
  ],
  'slow-fill': [
    ...NO_DELIVERY,
    ...UNTRUSTED_SENSORS,
    'amps-low',
    'cut-out-not-reached',
    'level-low',
    'supply-voltage',
    'leak',
  ],
  // The level is the reason, and no symptom; but where the dry pump was told, it is no second news.
  'level-low': ['dry-run', 'node-conflict'],
  'tank-air-lost': [...UNTRUSTED_SENSORS, 'tank-overcharged', 'short-cycling'],
  'tank-overcharged': [...UNTRUSTED_SENSORS, 'tank-air-lost', 'short-cycling'],
  leak: [...UNTRUSTED_SENSORS, 'no-water', 'long-run', 'over-pressure'],
  'freeze-risk': [],
  'switch-shift': [
    ...NO_DELIVERY,
    ...UNTRUSTED_SENSORS,
    'over-pressure',
    'cut-out-not-reached',
    'short-cycling',
    'tank-overcharged',
    'level-low',
    'tank-air-lost',
  ],
  'cycle-count': [
    ...NO_DELIVERY,
    ...UNTRUSTED_SENSORS,
    ...MANY_STARTS,
    ...WEAK_DELIVERY,
    'over-pressure',
    'switch-shift',
    'node-silent',
    'no-run',
  ],
  'node-silent': ['power-lost', 'site-silent'],
  'site-silent': [],
  'not-watched': [],
  'node-conflict': [],
  'sensor-fault': ['power-lost', 'node-silent', 'site-silent', 'node-conflict', 'freeze-risk'],
};

/** Alarms of one pump told at one time: the fault's own and, at most, one more. */
const MAX_NOTIFIED_PER_PUMP = 2;
const PRIORITY_RANK: Record<Priority, number> = { now: 2, soon: 1, note: 0 };

/**
 * Told beside whatever else stands: they are of the site, the node or the weather and not of the
 * pump.
 */
const NEVER_GROUPED: ReadonlySet<AlarmKind> = new Set([
  'power-lost',
  'node-silent',
  'site-silent',
  'not-watched',
  'node-conflict',
  'freeze-risk',
  'supply-voltage',
  'level-low',
]);

/**
 * The standing alarm of which a new one is a symptom, or undefined where it is told on its own.
 * Beside the table, two told alarms of one pump are enough: a third is told only where it is more
 * urgent than both.
 */
export function explainedBy(
  alarm: AlarmKind,
  priority: Priority,
  pump: string | undefined,
  entries: readonly AlarmEntry[],
): AlarmKind | undefined {
  if (isAlwaysReported(alarm, priority)) return undefined;
  const explaining = explainedByTable({ alarm, priority, pump }, entries);
  if (explaining !== undefined) return explaining;
  if (NEVER_GROUPED.has(alarm)) return undefined;
  const notified = entries.filter(
    (entry) => isActiveNearby(entry, alarm, pump) && entry.notified && !NEVER_GROUPED.has(entry.alarm),
  );
  if (notified.length < MAX_NOTIFIED_PER_PUMP) return undefined;
  const urgent = notified.every((entry) => PRIORITY_RANK[entry.priority] < PRIORITY_RANK[priority]);
  return urgent ? undefined : notified[0]?.alarm;
}

/**
 * The standing alarm that explains this one by the table. What is less urgent explains nothing: a
 * person who was told to see to a pump within days must hear that it now runs on without an end.
 */
export function explainedByTable(
  { alarm, priority, pump }: { alarm: AlarmKind; priority: Priority; pump?: string | undefined },
  entries: readonly AlarmEntry[],
): AlarmKind | undefined {
  if (isAlwaysReported(alarm, priority)) return undefined;
  return entries.find(
    (entry) =>
      isActiveNearby(entry, alarm, pump) &&
      entry.state !== 'suppressed-by-design' &&
      // Two do not explain each other.
      entry.symptomOf !== alarm &&
      EXPLAINED_BY[alarm].includes(entry.alarm) &&
      PRIORITY_RANK[entry.priority] >= PRIORITY_RANK[priority] &&
      isRelevant(entry, alarm),
  )?.alarm;
}

/**
 * A running pump that drives pressure over its limit: whoever was told of a long run only, may walk
 * up to the tank.
 */
function isAlwaysReported(alarm: AlarmKind, priority: Priority): boolean {
  return alarm === 'over-pressure' && priority === 'now';
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
 * Alarms read from the current alone. All others that a sensor can spoil are read from the
 * pressure, within runs or between them.
 */
const CURRENT_ONLY_ALARMS: ReadonlySet<AlarmKind> = new Set([
  'amps-high',
  'amps-low',
  'leg-imbalance',
  'no-run',
  'cycle-count',
  'short-cycling',
  'starts-over-limit',
]);

/**
 * A sensor explains only what is read from it: a thermometer that broke must not silence a leak.
 */
function isRelevant(entry: AlarmEntry, alarm: AlarmKind): boolean {
  if (entry.alarm !== 'sensor-fault') return true;
  const { channel } = entry.evidence;
  const lead = entry.causes[0]?.cause;
  // Without a current nothing is known of runs, and with that of nothing.
  if (typeof channel === 'string' ? channel.includes('current') : lead === 'clamp-off') return true;
  if (typeof channel === 'string' && !channel.includes('pressure')) return false;
  // A card that is wrong about the motor says nothing of the gauge.
  if (lead === 'bad-card' && entry.evidence['maxAmps'] !== undefined) return CURRENT_ONLY_ALARMS.has(alarm);
  return !CURRENT_ONLY_ALARMS.has(alarm);
}
