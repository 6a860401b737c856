/**
 * A well's state in words, and how much attention it asks for. One place decides it, so that the
 * list, the page of a well and whoever asks the API read the same sentence. Two sentences: the
 * headline (what stands against the well, else what it does) and what it is doing.
 */
import { whyText } from './reasons/why.ts';
import { formatQuantity } from '../../quantity/format-quantity.ts';
import type { UnitSystem } from '../../quantity/format-quantity.ts';
import type { AlarmAnswer } from '../../api/alarms.ts';
import { MINUTE_MS } from '../../units/duration.ts';
import { alarmTitle } from './alarm-title.ts';
import { formatCount, formatDuration } from './format.ts';
import { isMoreUrgent, urgencyOf, type Urgency } from './alarms/urgency.ts';
import { dateWords, whenWords } from './time-words.ts';
import type { Attention, Mode, PumpStatus, WellStatus } from '../../api/wells.ts';
import { lowerFirst } from './names.ts';

/**
 * A well that sent nothing for this long has no data, even before an alarm says so. Steady nodes
 * send every 10 s.
 */
const NO_DATA_AFTER_MS = 15 * MINUTE_MS;

const RANK: Record<Attention, number> = {
  now: 0,
  soon: 1,
  'no-data': 2,
  note: 3,
  visit: 4,
  learning: 5,
  normal: 6,
  'not-in-use': 7,
};
const ATTENTION_BY_MODE: Record<Mode, Attention> = {
  watching: 'normal',
  learning: 'learning',
  visit: 'visit',
  'out-of-service': 'not-in-use',
  'laid-up': 'not-in-use',
};
const SILENCE_ALARMS: readonly string[] = ['node-silent', 'site-silent'];

/**
 * What a person should make of this well. Shelved alarms don't count; while people are at work, or
 * the well is laid up, none do.
 */
export function attentionOf(well: WellStatus, active: readonly AlarmAnswer[], nowMs: number): Attention {
  const normal = ATTENTION_BY_MODE[well.mode];
  if (normal === 'visit' || normal === 'not-in-use') return normal;
  const raised = active.filter((alarm) => !isShelved(alarm, nowMs)).map(attentionForAlarm);
  if (well.lastReadingMs === undefined || nowMs - well.lastReadingMs > NO_DATA_AFTER_MS)
    raised.push('no-data');
  return [...raised, normal].reduce((worst, one) => (RANK[one] < RANK[worst] ? one : worst));
}

/**
 * How urgent the alarms are that ask for a well's attention, with the two levels of `now`;
 * undefined where no alarm does.
 */
export function urgencyOfWell(
  { attention, activeAlarms }: { attention: Attention; activeAlarms: readonly AlarmAnswer[] },
  nowMs: number,
): Urgency | undefined {
  if (attention !== 'now') return attention === 'soon' || attention === 'note' ? attention : undefined;
  return activeAlarms
    .filter((alarm) => alarm.priority === 'now' && !isShelved(alarm, nowMs))
    .map(urgencyOf)
    .reduce<Urgency | undefined>(
      (worst, one) => (worst === undefined || isMoreUrgent(one, worst) ? one : worst),
      undefined,
    );
}

/** Order of a list of wells: worst first, then by name. */
export function compareByAttention(
  a: { attention: Attention; well: string },
  b: { attention: Attention; well: string },
): number {
  return RANK[a.attention] - RANK[b.attention] || a.well.localeCompare(b.well);
}

/** Told before what explains it was found: it is no second trouble. */
export function isSymptom(well: Pick<WellStatus, 'symptoms'>, alarm: AlarmAnswer): boolean {
  return (well.symptoms ?? []).some(
    (one) => one.notified && one.alarm === alarm.alarm && one.pump === alarm.pump,
  );
}

function isShelved(alarm: AlarmAnswer, nowMs: number): boolean {
  return alarm.shelvedUntilMs !== undefined && alarm.shelvedUntilMs > nowMs;
}

function attentionForAlarm(alarm: AlarmAnswer): Attention {
  return alarm.priority !== 'now' && SILENCE_ALARMS.includes(alarm.alarm) ? 'no-data' : alarm.priority;
}

/** The worst alarm that is not shelved: first by priority, then the newest. */
function leadingAlarm(active: readonly AlarmAnswer[], nowMs: number): AlarmAnswer | undefined {
  return active
    .filter((alarm) => !isShelved(alarm, nowMs))
    .toSorted((a, b) => RANK[a.priority] - RANK[b.priority] || b.sinceMs - a.sinceMs)[0];
}

/**
 * The headline: "Pump starts too often since Tuesday: 14 starts in 18 min." or, where nothing
 * stands, what the well does.
 */
export function headlineWords(
  well: WellStatus,
  active: readonly AlarmAnswer[],
  system: UnitSystem,
  nowMs: number,
): string {
  const when = (atMs: number): string => whenWords(atMs, well.timeZone, system, nowMs);
  const since = well.modeSinceMs === undefined ? '' : ` since ${when(well.modeSinceMs)}`;
  if (well.mode === 'visit') return `Service visit open${since}: alarms are suppressed until it is closed.`;
  if (well.mode === 'out-of-service') return `Out of service${since}.`;
  if (well.mode === 'laid-up') return laidUpWords(well, nowMs);
  const own = active.filter((alarm) => !isSymptom(well, alarm));
  const lead = leadingAlarm(own, nowMs);
  if (lead) {
    const more = own.filter((alarm) => !isShelved(alarm, nowMs)).length - 1;
    // A headline has room for the first of its sentences.
    const why = lowerFirst(whyText(lead, system).split(/[;.](?:\s|$)/)[0] ?? '');
    return `${alarmTitle(lead.alarm)} since ${when(lead.sinceMs)}${why ? `: ${why}` : ''}.${more > 0 ? ` And ${more} more.` : ''}`;
  }
  if (well.lastReadingMs === undefined) return 'No data yet.';
  if (nowMs - well.lastReadingMs > NO_DATA_AFTER_MS) return `No data since ${when(well.lastReadingMs)}.`;
  return doingWords(well, system, nowMs);
}

function laidUpWords(well: WellStatus, nowMs: number): string {
  return well.modeUntilMs === undefined
    ? 'Laid up.'
    : `Laid up until ${dateWords(well.modeUntilMs, well.timeZone, nowMs)}.`;
}

/**
 * What the well is doing: "Resting. 59 psi. Ran 14 min today, 9 starts." What is not known is left
 * out.
 */
export function doingWords(well: WellStatus, system: UnitSystem, nowMs: number): string {
  const several = well.pumps.length > 1;
  const parts = [
    well.pumps.map((pump) => pumpWords(pump, several, system, nowMs)).join(', '),
    well.pressureKpa === undefined ? '' : formatQuantity(well.pressureKpa, 'pressure', system),
    todayWords(well.pumps),
    well.mode === 'learning' ? 'Still learning what is normal here' : '',
    well.expected && well.expected.untilMs > nowMs ? `Expected: ${well.expected.text}` : '',
  ];
  return parts
    .filter((part) => part !== '')
    .map((part) => `${part[0]?.toUpperCase()}${part.slice(1)}.`)
    .join(' ');
}

function pumpWords(pump: PumpStatus, several: boolean, system: UnitSystem, nowMs: number): string {
  const name = several ? `pump ${pump.pump.slice(1)} ` : '';
  if (pump.running === undefined) return `${name}state not known`;
  if (!pump.running) return `${name}resting`;
  const ranS = pump.sinceMs === undefined ? undefined : (nowMs - pump.sinceMs) / 1000;
  const ran = ranS === undefined ? '' : ` for ${formatDuration(ranS)}`;
  const amps = pump.amps === undefined ? '' : ` at ${formatQuantity(pump.amps, 'current', system, 1)}`;
  return `${name}running${ran}${amps}${unusualRun(pump, ranS)}`;
}

/**
 * Said at once, long before it is asked about (src/core/alarms/pump/run-too-long.ts): a third
 * longer than ever is no shower.
 */
const UNUSUAL_RUN_RATIO = 1.3;

function unusualRun({ longestRunS }: PumpStatus, ranS: number | undefined): string {
  if (longestRunS === undefined || ranS === undefined || ranS <= UNUSUAL_RUN_RATIO * longestRunS) return '';
  return `, unusually long: its longest run so far took ${formatDuration(longestRunS)}`;
}

function todayWords(pumps: readonly PumpStatus[]): string {
  const starts = pumps.reduce((sum, pump) => sum + pump.startsToday, 0);
  const ranS = pumps.reduce((sum, pump) => sum + pump.ranTodayS, 0);
  if (pumps.length === 0) return '';
  if (starts === 0 && ranS === 0) return 'No run today';
  return `ran ${formatDuration(ranS)} today, ${formatCount(starts, 'start')}`;
}
