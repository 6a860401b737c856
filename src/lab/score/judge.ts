/**
 * What the alarms of one case are worth: right, false, or neither. Before its fault began a well is
 * healthy, and whatever is raised there is false; between beginning and knowable a right alarm
 * counts as found when it became knowable.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { lookAlikesOf } from '../../../shared/text/en/causes/look-alikes.ts';
import type { AlarmKind, Cause } from '../../../shared/text/en/alarms/kinds.ts';
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import type { CorpusCase, Fault } from './case.ts';
import { msOf } from './match.ts';
import type { PlayResult } from './play.ts';

/** An alarm that was raised, as the scoreboard tells it. */
export interface RaisedAlarm {
  alarm: AlarmKind;
  atMs: number;
  cause?: Cause;
  why: string;
}

export interface FaultResult {
  family: string;
  size: number;
  what: string;
  /** The best of the right alarms. */
  alarm: AlarmKind;
  /** To be told within two minutes. */
  isNow: boolean;
  measure?: NonNullable<Fault['measure']>;
  /** When the right alarm was raised; absent where none was. */
  atMs?: number;
  /** Since it was knowable; 0 where it was told before. */
  afterMs?: number;
  inTime: boolean;
  /** Runs that had begun since it was knowable, where a number of runs is the limit. */
  runs?: number;
  /**
   * Whether the right cause, or one that looks like it, was named first, or among the first two.
   */
  cause?: { first: boolean; second: boolean; named: Cause[] };
  /** Raised since the fault began, right ones and symptoms included. */
  alarms: number;
  /** Among them those that are neither right nor a symptom. */
  wrong: RaisedAlarm[];
}

export interface CaseVerdict {
  /** In healthy time. */
  falseAlarms: RaisedAlarm[];
  fault?: FaultResult;
}

const NOW_DEADLINE_MS = 120_000;
/** The network is back, but the first word of a node takes its time. */
const RECONNECT_GRACE_MS = HOUR_MS;

export function judge(corpusCase: CorpusCase, played: PlayResult): CaseVerdict {
  const { fault, allowed = [] } = corpusCase;
  const all = played.alarms.filter((alarm) => alarm.state === 'raised' && !isExcused(corpusCase, alarm));
  const raised = all.filter(({ alarm }) => !allowed.includes(alarm));
  if (!fault) return { falseAlarms: raised.map(raisedAlarmOf) };
  const before = raised.filter(({ at }) => msOf(at) < fault.beganMs);
  // No news beside another is news where it comes first: a fault that is told by an allowed alarm
  // alone has been told.
  const first = all.find(({ alarm, at }) => fault.alarms.includes(alarm) && msOf(at) >= fault.beganMs);
  const since = all.filter(
    (event) => msOf(event.at) >= fault.beganMs && (event === first || raised.includes(event)),
  );
  return { falseAlarms: before.map(raisedAlarmOf), fault: faultResultOf(fault, since, played) };
}

/**
 * A node that is truly away, or without its supply, may be said to be so; where that is the fault
 * itself, it must be.
 */
function isExcused({ node, fault }: CorpusCase, { alarm, at }: AlarmEvent): boolean {
  if (fault?.alarms.includes(alarm) === true) return false;
  const atMs = msOf(at);
  const within = (spans: readonly { fromMs: number; untilMs: number }[]): boolean =>
    spans.some(({ fromMs, untilMs }) => fromMs <= atMs && atMs <= untilMs + RECONNECT_GRACE_MS);
  const cuts = node.powerCuts ?? [];
  if (alarm === 'power-lost') return within(cuts.filter(({ lastGasp }) => lastGasp));
  if (alarm !== 'node-silent' && alarm !== 'site-silent') return false;
  const reboots = (node.reboots ?? []).map(({ atMs: fromMs, downS }) => ({
    fromMs,
    untilMs: fromMs + downS * 1000,
  }));
  return within([...(node.outages ?? []), ...cuts, ...reboots]);
}

function faultResultOf(fault: Fault, since: readonly AlarmEvent[], played: PlayResult): FaultResult {
  const { family, size, what, alarms, measure, withinCycles, causes } = fault;
  const knowableMs = played.shownMs ?? fault.knowableMs;
  const byMs = knowableMs + (fault.byMs - fault.knowableMs);
  const first = since.find(({ alarm }) => alarms.includes(alarm));
  const atMs = first && msOf(first.at);
  const runs =
    atMs === undefined || withinCycles === undefined ? undefined : runsSince(played, knowableMs, atMs);
  const named = (first?.causes ?? []).map(({ cause }) => cause);
  return {
    family,
    size,
    what,
    alarm: alarms[0]!,
    isNow: byMs - knowableMs <= NOW_DEADLINE_MS,
    ...(measure && { measure }),
    ...(atMs !== undefined && { atMs, afterMs: Math.max(0, atMs - knowableMs) }),
    inTime: atMs !== undefined && atMs <= byMs && (runs ?? 0) <= (withinCycles ?? Number.POSITIVE_INFINITY),
    ...(runs !== undefined && { runs }),
    ...(first &&
      causes.length > 0 && {
        cause: {
          first: named.slice(0, 1).some((cause) => isRight(cause, causes)),
          second: named.slice(0, 2).some((cause) => isRight(cause, causes)),
          named: named.slice(0, 3),
        },
      }),
    alarms: since.length,
    // A run that does not end is what many faults look like from outside: a symptom, but one alarm
    // more all the same.
    wrong: since.filter(({ alarm }) => !alarms.includes(alarm) && alarm !== 'long-run').map(raisedAlarmOf),
  };
}

function isRight(cause: Cause, right: readonly Cause[]): boolean {
  return right.some((one) => one === cause || lookAlikesOf(one)?.causes.includes(cause) === true);
}

function runsSince({ truth }: PlayResult, fromMs: number, untilMs: number): number {
  return truth.cycles.filter(({ startedMs }) => startedMs >= fromMs && startedMs < untilMs).length;
}

function raisedAlarmOf({ alarm, at, why, causes }: AlarmEvent): RaisedAlarm {
  const cause = causes?.[0]?.cause;
  return { alarm, atMs: msOf(at), ...(cause && { cause }), why: why ?? '' };
}

/** Healthy time of a case, in years: all of it, or that before its fault. */
export function healthyYears({ is, fault, fromMs, days }: CorpusCase): number {
  if (is === 'bad-input') return 0;
  const untilMs = fault?.beganMs ?? fromMs + days * DAY_MS;
  return Math.max(0, untilMs - fromMs) / DAY_MS / 365.25;
}
