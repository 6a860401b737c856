/**
 * What a rest of the well does to its checks. Those that need pump, pressure or a tap that is used
 * wait, and are due on the day the well comes back; what is looked at from outside, and the frost,
 * goes on. A rest calls for two checks itself: made ready for frost where it stands still through
 * the cold, and the water tested after a long one, which systems that close for a season do before
 * anybody drinks (EPA, Revised Total Coliform Rule, 40 CFR 141.854(i), from memory; for a private
 * well a yardstick).
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { isDueKind, type DueKind } from '../../../shared/text/en/checks/due-words.ts';
import type { CheckCompletion } from './check-completions.ts';
import { addDays, daysBetween, nextYearly } from './dates.ts';
import type { DueTrigger } from './due.ts';
import type { Recurrence } from './due-rules.ts';
import { currentDowntime, type Downtime, type DowntimeAct } from './downtime.ts';
import { texts } from './texts.ts';

export interface DowntimeDates {
  is: Downtime['is'];
  /** It is over. */
  ended: boolean;
  sinceMs: number;
  /** ISO dates in the well's own time zone. */
  sinceDate: string;
  /** The day on which it comes back, and the last one before that; absent where nobody knows. */
  returnDate?: string;
  untilDate?: string;
}

/** Water that stood so long is tested (common practice, no source). */
const LONG_DOWNTIME_DAYS = 30;
/** A sample drawn so shortly before the well came back is the test of its start. */
const START_UP_SAMPLE_DAYS = 14;
/** Made ready so shortly before it was laid up is made ready for that. */
const READY_BEFORE_DAYS = 31;
/** The cold half of the year begins with the day on which all is ready for it. */
const COLD_DAYS = 183;

const DOWNTIME_EFFECT: Record<DueKind, 'on-hold' | 'continues'> = {
  'water-test': 'on-hold',
  precharge: 'on-hold',
  'pressure-gauge': 'on-hold',
  'relief-valve': 'on-hold',
  'node-calibration': 'on-hold',
  'stock-water': 'on-hold',
  'well-cap': 'continues',
  freeze: 'continues',
  treatment: 'on-hold',
  'uv-lamp': 'on-hold',
  backflow: 'on-hold',
  'static-level': 'continues',
  winterize: 'continues',
  'spring-start': 'continues',
  'after-flood': 'continues',
  'after-lightning': 'continues',
  'after-dry-well': 'continues',
};

/**
 * A check of people's own waits too: a filter or a trough is of no use to a well that stands still.
 */
function isOnHoldDuringDowntime(check: string): boolean {
  return !isDueKind(check) || DOWNTIME_EFFECT[check] === 'on-hold';
}

/** The rest that is on, or the last one. */
export function downtimeDates(
  acts: readonly DowntimeAct[],
  nowMs: number,
  timeZone: string,
): DowntimeDates | undefined {
  const { now, last } = currentDowntime(acts, nowMs);
  const rest = now ?? last;
  if (!rest) return undefined;
  const on = (ms: number): string => localDate(ms, timeZone);
  const { is, sinceMs, endMs } = rest;
  return {
    is,
    ended: now === undefined,
    sinceMs,
    sinceDate: on(sinceMs),
    ...(endMs !== undefined && { returnDate: on(endMs), untilDate: on(endMs - 1) }),
  };
}

/**
 * A call as it stands after a rest had its way: moved to the day the well comes back, or without a
 * day while nobody knows that.
 */
export type ShiftedTrigger =
  { trigger: DueTrigger; heldBy?: 'on-hold' | 'was-on-hold' } | { onHold: DueTrigger };

export function shiftForDowntime(
  check: string,
  trigger: DueTrigger,
  downtime: DowntimeDates | undefined,
): ShiftedTrigger {
  if (!downtime || !isOnHoldDuringDowntime(check)) return { trigger };
  const { returnDate, ended, sinceDate } = downtime;
  if (returnDate === undefined) return { onHold: trigger };
  const inIt = trigger.date < returnDate && (!ended || trigger.date >= sinceDate || isLongDowntime(downtime));
  if (!inIt) return { trigger };
  const late = trigger.date < sinceDate ? ` ${texts().alreadyDue(trigger.date)}` : '';
  return {
    trigger: { ...trigger, date: returnDate, reason: `${trigger.reason}${late}` },
    heldBy: ended ? 'was-on-hold' : 'on-hold',
  };
}

function isLongDowntime({ sinceDate, returnDate }: DowntimeDates): boolean {
  return returnDate !== undefined && daysBetween(sinceDate, returnDate) >= LONG_DOWNTIME_DAYS;
}

/** Why a check waits, or waited. */
export function downtimeWords({ is, ended, sinceDate, untilDate, returnDate }: DowntimeDates): string {
  if (ended && returnDate !== undefined) return texts().backInUse(returnDate);
  const what = texts().downtimes[is];
  return untilDate === undefined
    ? texts().onHoldSince(what, sinceDate)
    : texts().onHoldUntil(what, untilDate);
}

/** What the rest itself asks for. */
export function downtimeTriggers(
  kind: DueKind,
  downtime: DowntimeDates | undefined,
  { last, recurrence }: { last: CheckCompletion | undefined; recurrence: Recurrence | undefined },
): DueTrigger[] {
  if (!downtime) return [];
  const lastDate = last?.completed ? last.date : '';
  if (kind === 'water-test') return startUpTestTrigger(downtime, lastDate);
  return kind === 'freeze' ? winterizeTrigger(downtime, lastDate, recurrence) : [];
}

function startUpTestTrigger(downtime: DowntimeDates, lastDate: string): DueTrigger[] {
  const { sinceDate, untilDate, returnDate } = downtime;
  if (
    returnDate === undefined ||
    !isLongDowntime(downtime) ||
    lastDate >= addDays(returnDate, -START_UP_SAMPLE_DAYS)
  )
    return [];
  const { flushNow, flushAfterwards } = texts();
  return [
    {
      date: returnDate,
      reason: (downtime.ended ? flushNow : flushAfterwards)(sinceDate, untilDate ?? returnDate),
      cautions: ['test-results'],
    },
  ];
}

/**
 * Nobody may be there on the usual day, or it is past already: so it is done when the well is laid
 * up.
 */
function winterizeTrigger(
  downtime: DowntimeDates,
  lastDate: string,
  recurrence: Recurrence | undefined,
): DueTrigger[] {
  const { ended, sinceDate, returnDate } = downtime;
  if (ended || recurrence?.is !== 'yearly') return [];
  // The frost that is on, or the next one.
  const frostOn = nextYearly(recurrence.day, addDays(sinceDate, 1 - COLD_DAYS));
  if (returnDate !== undefined && frostOn >= returnDate) return [];
  const readyFrom =
    frostOn <= sinceDate ? addDays(frostOn, -COLD_DAYS) : addDays(sinceDate, -READY_BEFORE_DAYS);
  if (lastDate >= readyFrom) return [];
  const reason = texts().frostWhileLaidUp(sinceDate);
  return [{ date: sinceDate, reason }];
}
