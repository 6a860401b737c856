/**
 * Should we tell, whom, and why or why not? Each recipient gets a decision with its reason, told or
 * not, so that "why did nobody call me?" has an answer. What is grouped, delayed or explained by
 * something else was decided before this (src/core/alarms/lifecycle/): here a line was said, and
 * the question is only who hears it.
 */
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { Priority } from '../../../shared/text/en/alarms/kinds.ts';
import { isMoreUrgent, urgencyOf, type Urgency } from '../../../shared/text/en/alarms/urgency.ts';
import type { CardNames } from '../../../shared/text/en/card-names.ts';
import { withoutSentence } from '../alarms/lifecycle/alarm-event.ts';
import type { NoticeRow } from './notice-row.ts';
import type { Recipient } from './recipients.ts';
import { texts } from './texts.ts';

/** What is kept of an alarm, as far as telling goes (an AlarmRow of src/store/store.ts fits). */
export interface NoticeAlarm {
  id: string;
  /** The last raised or changed line, whole. */
  event: AlarmEvent;
  clearedMs?: number;
  withdrawnMs?: number;
  shelvedUntilMs?: number;
}

export interface AlarmChange {
  /** The row as it was; absent where it has just been raised. */
  before?: NoticeAlarm;
  after: NoticeAlarm;
  /** The line that was said. */
  event: AlarmEvent;
}

export interface NoticeContext {
  recipients: readonly Recipient[];
  /** Our clock: when the decision is made. */
  nowMs: number;
  units: UnitSystem;
  /** The site's IANA zone. */
  timeZone: string;
  /** What the well's card says of whom to call and where to switch off. */
  names?: CardNames;
  /**
   * Whether this recipient was told of this alarm before. Without it that is worked out from the
   * priority it had: true for all who hear such alarms.
   */
  wasNotified?: (recipient: string) => boolean;
}

export type Decision =
  | { to: string; channel: string; row: NoticeRow; reason: string }
  | { to: string; none: true; reason: string };

/**
 * A reason to tell, with what makes this telling different from others of the same alarm; or a
 * reason not to.
 */
type Verdict = { noticeKey: string; reason: string } | { none: true; reason: string };

const PRIORITY_RANK: Record<Priority, number> = { now: 2, soon: 1, note: 0 };

/** One decision for each recipient, and for each of the ways of those who are told. */
export function decideNotices(change: AlarmChange, context: NoticeContext): Decision[] {
  const common = commonVerdict(change, context);
  return context.recipients.flatMap((recipient): Decision[] => {
    const verdict = common ?? judgeRecipient(change, recipient, context);
    if ('none' in verdict) return [{ to: recipient.name, none: true, reason: verdict.reason }];
    return recipient.channels.map((channel) => ({
      to: recipient.name,
      channel,
      row: noticeRowFor(change, context, {
        recipient,
        channel,
        noticeKey: verdict.noticeKey,
        reason: verdict.reason,
      }),
      reason: verdict.reason,
    }));
  });
}

/** What holds for everybody alike. */
function commonVerdict({ after, event }: AlarmChange, { nowMs }: NoticeContext): Verdict | undefined {
  if (event.state !== 'raised' && event.state !== 'changed') return undefined;
  const { decisions } = texts();
  if (after.withdrawnMs !== undefined) return doNotTell(decisions.withdrawnBefore);
  if (after.clearedMs !== undefined) return doNotTell(decisions.clearedBefore);
  if (after.shelvedUntilMs !== undefined && after.shelvedUntilMs > nowMs) return doNotTell(decisions.shelved);
  return undefined;
}

function judgeRecipient(change: AlarmChange, recipient: Recipient, context: NoticeContext): Verdict {
  const well = change.event.well;
  if (well !== undefined && recipient.wells !== undefined && !recipient.wells.includes(well)) {
    return doNotTell(texts().decisions.otherWells(recipient.name));
  }
  switch (change.event.state) {
    case 'raised':
      return judgeRaised(change, recipient);
    case 'changed':
      return judgeChanged(change, recipient, wasRecipientNotified(change, recipient, context));
    case 'cleared':
    case 'withdrawn':
      return judgeEnd(change, recipient, wasRecipientNotified(change, recipient, context));
    default:
      return change.event.state satisfies never;
  }
}

function judgeRaised({ event }: AlarmChange, recipient: Recipient): Verdict {
  const priority = event.priority ?? 'soon';
  const { decisions } = texts();
  return wantsPriority(recipient, priority)
    ? { noticeKey: 'raised', reason: decisions.wanted(recipient.name, priority) }
    : doNotTell(decisions.notWanted(recipient.name, priority));
}

/**
 * An end that was told and was none is taken back; a rising priority is told; a new leading cause
 * only where somebody is up and looking for it, and then once.
 */
function judgeChanged(
  { before, after, event }: AlarmChange,
  recipient: Recipient,
  wasNotified: boolean,
): Verdict {
  const { decisions } = texts();
  const [previous, current] = [before?.event.priority ?? 'note', event.priority ?? 'soon'];
  if (!wasNotified && !wantsPriority(recipient, current))
    return doNotTell(decisions.notWanted(recipient.name, current));
  if (PRIORITY_RANK[current] > PRIORITY_RANK[previous])
    return { noticeKey: `changed/${current}`, reason: decisions.raisedPriority(previous, current) };
  if (before && isMoreUrgent(urgencyOfLine(event), urgencyOfLine(before.event)))
    return { noticeKey: `changed/${urgencyOfLine(event)}`, reason: decisions.minutesMatter };
  if (wasNotified && wasReopened(before, after) && after.event.priority !== 'note')
    return {
      noticeKey: `not-over/${before!.clearedMs}`,
      reason: decisions.stillActive(recipient.name),
    };
  const cause = event.causes?.[0]?.cause;
  if (cause === before?.event.causes?.[0]?.cause) return doNotTell(decisions.sameAction);
  return current === 'now'
    ? {
        noticeKey: 'changed/cause',
        reason: decisions.newCauseNow,
      }
    : doNotTell(decisions.newCauseLater);
}

function urgencyOfLine({ alarm, priority = 'soon', evidence = {} }: AlarmEvent): Urgency {
  return urgencyOf({ alarm, priority, evidence });
}

function judgeEnd({ after, event }: AlarmChange, recipient: Recipient, wasNotified: boolean): Verdict {
  const { decisions } = texts();
  if (!wasNotified) return doNotTell(decisions.notNotifiedBefore(recipient.name));
  const reason = decisions.notifiedBefore(recipient.name);
  if (event.state === 'withdrawn') return { noticeKey: 'withdrawn', reason };
  return after.event.priority === 'note'
    ? doNotTell(decisions.endOfNote)
    : { noticeKey: `cleared/${after.clearedMs ?? ''}`, reason };
}

/** It was told as over, and is not. */
function wasReopened(before: NoticeAlarm | undefined, after: NoticeAlarm): boolean {
  return before?.clearedMs !== undefined && after.clearedMs === undefined;
}

function wasRecipientNotified(
  { before, after }: AlarmChange,
  recipient: Recipient,
  context: NoticeContext,
): boolean {
  if (context.wasNotified !== undefined) return context.wasNotified(recipient.name);
  return wantsPriority(recipient, (before ?? after).event.priority ?? 'soon');
}

function wantsPriority(recipient: Recipient, priority: Priority): boolean {
  return recipient.priorities.includes(priority);
}

function doNotTell(reason: string): Verdict {
  return { none: true, reason };
}

function noticeRowFor(
  { before, after, event }: AlarmChange,
  { nowMs, units, timeZone, names }: NoticeContext,
  {
    recipient,
    channel,
    noticeKey,
    reason,
  }: { recipient: Recipient; channel: string; noticeKey: string; reason: string },
): NoticeRow {
  return {
    id: `${after.id}/${noticeKey}/${recipient.name}/${channel}`,
    alarmId: after.id,
    to: recipient.name,
    what: event.state,
    dueMs: nowMs,
    createdMs: nowMs,
    tries: 0,
    state: 'due',
    body: {
      event: withoutSentence({ ...after.event, ...event }),
      ...(wasReopened(before, after) && { reopened: true }),
      units,
      timeZone,
      ...(names && { names }),
      channel,
      reason,
    },
  };
}
