/**
 * Should we tell, whom, and why or why not? Each recipient gets a decision with its reason, told or not, so that "why did nobody call
 * me?" has an answer. What is grouped, delayed or explained by something else was decided before this (src/alarm/): here a line
 * was said, and the question is only who hears it.
 */
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import type { AlarmEvent } from '../../shared/api/events.ts';
import type { Priority } from '../../shared/words/kinds.ts';
import { isMoreUrgent, urgencyOf, type Urgency } from '../../shared/words/urgency.ts';
import type { NoticeRow } from './notice-row.ts';
import { waysOf, type Recipient, type Way } from './recipients.ts';
import { writeNotice } from './write.ts';

/** What is kept of an alarm, as far as telling goes (an AlarmRow of src/store/store.ts fits). */
export interface ToldAlarm {
  id: string;
  /** The last raised or changed line, whole. */
  event: AlarmEvent;
  clearedMs?: number;
  withdrawnMs?: number;
  shelvedUntilMs?: number;
}

export interface AlarmChange {
  /** The row as it was; absent where it has just been raised. */
  before?: ToldAlarm;
  after: ToldAlarm;
  /** The line that was said. */
  event: AlarmEvent;
}

export interface Telling {
  recipients: readonly Recipient[];
  /** Our clock: when the decision is made. */
  nowMs: number;
  units: UnitSystem;
  /** The site's IANA zone. */
  timeZone: string;
  /**
   * Whether this recipient was told of this alarm before. Without it that is worked out from the priority it had: true for all who hear
   * such alarms.
   */
  wasTold?: (recipient: string) => boolean;
}

export type Decision =
  { to: string; way: Way; row: NoticeRow; reason: string } | { to: string; none: true; reason: string };

/** A reason to tell, with what makes this telling different from others of the same alarm; or a reason not to. */
type Verdict = { tell: string; reason: string } | { none: true; reason: string };

const RANK: Record<Priority, number> = { now: 2, soon: 1, note: 0 };

/** One decision for each recipient, and for each of the ways of those who are told. */
export function decideNotices(change: AlarmChange, telling: Telling): Decision[] {
  const common = commonVerdict(change, telling);
  return telling.recipients.flatMap((recipient): Decision[] => {
    const verdict = common ?? judge(change, recipient, telling);
    if ('none' in verdict) return [{ to: recipient.name, none: true, reason: verdict.reason }];
    return waysOf(recipient).map((way) => ({
      to: recipient.name,
      way,
      row: rowFor(change, telling, { recipient, way, tell: verdict.tell, reason: verdict.reason }),
      reason: verdict.reason,
    }));
  });
}

/** What holds for everybody alike. */
function commonVerdict({ after, event }: AlarmChange, { nowMs }: Telling): Verdict | undefined {
  if (event.state !== 'raised' && event.state !== 'changed') return undefined;
  if (after.withdrawnMs !== undefined) return no('late readings have shown that it was not so');
  if (after.clearedMs !== undefined) return no('it was over before anybody could be told');
  if (after.shelvedUntilMs !== undefined && after.shelvedUntilMs > nowMs)
    return no('somebody has shelved it');
  return undefined;
}

function judge(change: AlarmChange, recipient: Recipient, telling: Telling): Verdict {
  const well = change.event.well;
  if (well !== undefined && recipient.wells !== undefined && !recipient.wells.includes(well)) {
    return no(`${recipient.name} hears of other wells`);
  }
  switch (change.event.state) {
    case 'raised':
      return judgeRaised(change, recipient);
    case 'changed':
      return judgeChanged(change, recipient, wasTold(change, recipient, telling));
    case 'cleared':
    case 'withdrawn':
      return judgeEnd(change, recipient, wasTold(change, recipient, telling));
    default:
      return change.event.state satisfies never;
  }
}

function judgeRaised({ event }: AlarmChange, recipient: Recipient): Verdict {
  const priority = event.priority ?? 'soon';
  return hears(recipient, priority)
    ? { tell: 'raised', reason: `${recipient.name} hears of "${priority}"` }
    : no(`${recipient.name} does not hear of "${priority}"`);
}

/** An end that was told and was none is taken back; a rising priority is told; a new leading cause only where somebody is up and looking for it, and then once. */
function judgeChanged({ before, after, event }: AlarmChange, recipient: Recipient, told: boolean): Verdict {
  const [was, is] = [before?.event.priority ?? 'note', event.priority ?? 'soon'];
  if (!told && !hears(recipient, is)) return no(`${recipient.name} does not hear of "${is}"`);
  if (RANK[is] > RANK[was]) return { tell: `changed/${is}`, reason: `it has risen from "${was}" to "${is}"` };
  if (before && isMoreUrgent(urgencyOfLine(event), urgencyOfLine(before.event)))
    return { tell: `changed/${urgencyOfLine(event)}`, reason: 'minutes matter by now' };
  if (told && isNotOver(before, after) && after.event.priority !== 'note')
    return {
      tell: `not-over/${before!.clearedMs}`,
      reason: `${recipient.name} was told that it is over, and readings that came late show it standing`,
    };
  const cause = event.causes?.[0]?.cause;
  if (cause === before?.event.causes?.[0]?.cause) return no('nothing changed that would be done differently');
  return is === 'now'
    ? {
        tell: 'changed/cause',
        reason: 'another cause has become the likeliest while somebody must act now',
      }
    : no('another likely cause can wait until somebody looks');
}

function urgencyOfLine({ alarm, priority = 'soon', evidence = {} }: AlarmEvent): Urgency {
  return urgencyOf({ alarm, priority, evidence });
}

function judgeEnd({ after, event }: AlarmChange, recipient: Recipient, told: boolean): Verdict {
  if (!told) return no(`${recipient.name} was not told of it`);
  if (event.state === 'withdrawn') return { tell: 'withdrawn', reason: `${recipient.name} was told of it` };
  return after.event.priority === 'note'
    ? no('the end of something worth a look is not worth a message')
    : { tell: `cleared/${after.clearedMs ?? ''}`, reason: `${recipient.name} was told of it` };
}

/** It was told as over, and is not. */
function isNotOver(before: ToldAlarm | undefined, after: ToldAlarm): boolean {
  return before?.clearedMs !== undefined && after.clearedMs === undefined;
}

function wasTold({ before, after }: AlarmChange, recipient: Recipient, telling: Telling): boolean {
  if (telling.wasTold !== undefined) return telling.wasTold(recipient.name);
  return hears(recipient, (before ?? after).event.priority ?? 'soon');
}

function hears(recipient: Recipient, priority: Priority): boolean {
  return recipient.priorities.includes(priority);
}

function no(reason: string): Verdict {
  return { none: true, reason };
}

function rowFor(
  { before, after, event }: AlarmChange,
  { nowMs, units, timeZone }: Telling,
  { recipient, way, tell, reason }: { recipient: Recipient; way: Way; tell: string; reason: string },
): NoticeRow {
  const written = writeNotice({
    event,
    last: after.event,
    notOver: isNotOver(before, after),
    nowMs,
    units,
    timeZone,
  });
  return {
    id: `${after.id}/${tell}/${recipient.name}/${way}`,
    alarmId: after.id,
    to: recipient.name,
    what: event.state,
    dueMs: nowMs,
    madeMs: nowMs,
    tries: 0,
    state: 'due',
    body: { ...written, event: { ...after.event, ...event }, way, reason },
  };
}
