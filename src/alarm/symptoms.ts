/**
 * One fault, one alarm: which alarm is a symptom of which. Where an alarm stands that explains another, the other is suppressed by
 * design: it is kept and shown with the one that explains it, and nobody is told twice. The table is physics said in words: a pump
 * whose contacts stick runs on (long-run) because pressure has no end (over-pressure); a tank without air makes short cycles, many
 * starts, and a changed habit.
 */
import type { AlarmKind, Priority } from '../../shared/words/kinds.ts';
import type { AlarmEntry } from './entry.ts';

/** Nothing is pumped, or next to nothing: taps run dry, stores fall, runs do not come, and habits change. */
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
const WEAK = ['slow-fill', 'amps-low', 'cut-out-not-reached', 'level-low'] as const;

/** Each alarm with those that explain it, where they stand. */
export const EXPLAINED_BY: Record<AlarmKind, readonly AlarmKind[]> = {
  'long-run': ['over-pressure', 'dry-run', 'cut-out-not-reached', 'no-water', 'leg-lost', 'store-low'],
  'dry-run': ['leg-lost', 'no-water', 'long-run'],
  'failed-start': ['leg-lost', 'power-lost', 'no-start'],
  'no-start': ['power-lost', 'failed-start', 'leg-lost', 'dry-run'],
  'power-lost': [],
  'leg-lost': ['power-lost'],
  'no-water': NO_DELIVERY.filter((kind) => kind !== 'no-water'),
  'no-run': [...NO_DELIVERY, 'node-silent', 'site-silent', 'store-low'],
  'store-low': ['power-lost', 'failed-start', 'leg-lost', 'dry-run', 'no-start', 'no-run', 'long-run'],
  'over-pressure': ['long-run'],
  'short-cycling': ['tank-air-lost', 'tank-overcharged', 'leak', 'failed-start', 'dry-run', 'cycle-count'],
  'starts-over-limit': [
    'tank-air-lost',
    'tank-overcharged',
    'leak',
    'short-cycling',
    'failed-start',
    'dry-run',
  ],
  'amps-high': [
    'leg-lost',
    'leg-imbalance',
    'supply-voltage',
    'failed-start',
    'slow-fill',
    'over-pressure',
    'sensor-fault',
  ],
  'amps-low': [
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
    'sensor-fault',
  ],
  'leg-imbalance': ['leg-lost'],
  'supply-voltage': ['power-lost', 'leg-lost'],
  'cut-out-not-reached': [...NO_DELIVERY, 'slow-fill', 'amps-low', 'level-low', 'sensor-fault'],
  'slow-fill': [
    ...NO_DELIVERY,
    'amps-low',
    'cut-out-not-reached',
    'level-low',
    'supply-voltage',
    'sensor-fault',
  ],
  'level-low': [],
  'tank-air-lost': ['tank-overcharged', 'short-cycling', 'sensor-fault'],
  'tank-overcharged': ['tank-air-lost', 'short-cycling', 'sensor-fault'],
  leak: ['no-water', 'long-run', 'over-pressure', 'sensor-fault'],
  'freeze-risk': [],
  'switch-shift': [
    ...NO_DELIVERY,
    'over-pressure',
    'sensor-fault',
    'cut-out-not-reached',
    'short-cycling',
    'tank-overcharged',
    'level-low',
    'tank-air-lost',
  ],
  'cycle-count': [
    ...NO_DELIVERY,
    ...MANY_STARTS,
    ...WEAK,
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
const TOLD_AT_MOST = 2;
const RANK: Record<Priority, number> = { now: 2, soon: 1, note: 0 };

/** Told beside whatever else stands: they are of the site, the node or the weather and not of the pump. */
const ON_ITS_OWN: ReadonlySet<AlarmKind> = new Set([
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
 * The standing alarm of which a new one is a symptom, or undefined where it is told on its own. Beside the table, two told alarms
 * of one pump are enough: a third is told only where it is more urgent than both.
 */
export function explainedBy(
  alarm: AlarmKind,
  priority: Priority,
  pump: string | undefined,
  entries: readonly AlarmEntry[],
): AlarmKind | undefined {
  const near = entries.filter(
    (entry) =>
      entry.stands &&
      entry.alarm !== alarm &&
      (entry.pump === pump || entry.pump === undefined || pump === undefined),
  );
  const named = near.find(
    (entry) => entry.state !== 'suppressed-by-design' && EXPLAINED_BY[alarm].includes(entry.alarm),
  );
  if (named) return named.alarm;
  if (ON_ITS_OWN.has(alarm)) return undefined;
  const told = near.filter((entry) => entry.told && !ON_ITS_OWN.has(entry.alarm));
  if (told.length < TOLD_AT_MOST) return undefined;
  const urgent = told.every((entry) => RANK[entry.priority] < RANK[priority]);
  return urgent ? undefined : told[0]?.alarm;
}
