/**
 * From a watch's opinion to an alarm: on-delay, off-delay, suppression, and what of it is told. A finding counts from when it says
 * that it began; its absence counts from the first look that says so; a look that can't tell changes nothing.
 */
import type { Finding, Watch } from '../watch/scene.ts';
import type { Cause } from '../../shared/words/kinds.ts';
import { lookAlikesOf } from '../../shared/words/look-alikes.ts';
import { isMoreUrgent, urgencyOf } from '../../shared/words/urgency.ts';
import { entryKey, type AlarmEntry, type AlarmsState } from './entry.ts';
import { isAside, nextState, type LifeStep } from './lifecycle.ts';
import { alarmLine, type EmitAlarm } from './line.ts';
import { explainedBy, namedFor } from './symptoms.ts';
import { USUAL_PRIORITY } from './priority.ts';

/** A symptom that outlives its cause by this long is told after all: the first explanation was not all of it. */
const OUTLIVES_MS = 3_600_000;
/** A new leading cause is told when it leads by this much, so that two even ones do not take turns. */
const LEADS_BY = 0.1;
/** And when it has led for so long: a clue at its limit comes and goes (a thaw, a level by the pump), and is no news each time. */
const LEADS_FOR_MS = 600_000;

export interface Opinion {
  watch: Watch;
  atMs: number;
  pump?: string;
  node?: string;
  finding: Finding | null | undefined;
}

export function settle(state: AlarmsState, opinion: Opinion, emit: EmitAlarm): void {
  const { finding, watch, atMs } = opinion;
  if (finding === undefined) return;
  const key = entryKey(watch.alarm, opinion.pump, opinion.node);
  const entry = state.entries[key];
  if (finding === null) {
    if (entry?.stands) goesAway(state, key, entry, opinion, emit);
    return;
  }
  if (entry?.stands) {
    delete entry.awayMs;
    goesOn(state, entry, finding, atMs, emit);
    return;
  }
  if (atMs - finding.sinceMs < watch.onDelayS * 1000) return;
  occurs(state, key, entry, opinion, finding, emit);
}

function occurs(
  state: AlarmsState,
  key: string,
  before: AlarmEntry | undefined,
  { watch, atMs, pump, node }: Opinion,
  finding: Finding,
  emit: EmitAlarm,
): void {
  const entry: AlarmEntry = {
    alarm: watch.alarm,
    ...(pump !== undefined && { pump }),
    ...(node !== undefined && { node }),
    state: before?.state ?? 'normal',
    stands: true,
    told: before?.told ?? false,
    sinceMs: finding.sinceMs,
    raisedMs: atMs,
    stateMs: before?.stateMs ?? atMs,
    ...(before?.shelvedUntilMs !== undefined && { shelvedUntilMs: before.shelvedUntilMs }),
    priority: finding.priority ?? USUAL_PRIORITY[watch.alarm],
    why: finding.why,
    evidence: finding.evidence,
    causes: finding.causes,
  };
  state.entries[key] = entry;
  const cause = explainedBy(entry.alarm, entry.priority, pump, Object.values(state.entries));
  if (cause !== undefined && !isAside(entry.state)) {
    entry.symptomOf = cause;
    step(entry, 'suppress', atMs);
    return;
  }
  step(entry, 'occurs', atMs);
  tell(state, entry, atMs, emit);
}

/** Says the raised line unless somebody wished not to hear it, or was told already. */
function tell(state: AlarmsState, entry: AlarmEntry, atMs: number, emit: EmitAlarm): void {
  if (entry.told || isAside(entry.state)) return;
  entry.told = true;
  entry.raisedMs = atMs;
  emit(alarmLine(state.well, entry, 'raised', atMs));
  explainTold(state);
}

/** What was told before and is explained by what came is its symptom from now on, and is its own again when that is over. */
function explainTold(state: AlarmsState): void {
  for (const entry of Object.values(state.entries)) if (entry.told && entry.stands) explain(state, entry);
}

/** Of which other alarm one that was told is a symptom by now, if of any. It stays told. */
function explain(state: AlarmsState, entry: AlarmEntry): void {
  const by = namedFor(entry, Object.values(state.entries));
  if (by === undefined) delete entry.symptomOf;
  else entry.symptomOf = by;
}

function goesOn(
  state: AlarmsState,
  entry: AlarmEntry,
  finding: Finding,
  atMs: number,
  emit: EmitAlarm,
): void {
  const priority = finding.priority ?? USUAL_PRIORITY[entry.alarm];
  const rises = isMoreUrgent(urgencyOf({ ...entry, ...finding, priority }), urgencyOf(entry));
  const leads = leadsForLong(entry, newLead(entry, finding), atMs);
  entry.why = finding.why;
  entry.evidence = finding.evidence;
  if (rises || leads || sameLead(entry, finding)) entry.causes = finding.causes;
  if (rises) entry.priority = priority;
  if (entry.state === 'suppressed-by-design') {
    if (!stillExplained(state, entry, rises, atMs)) resume(state, entry, atMs, emit);
    return;
  }
  if (!entry.told) return;
  explain(state, entry);
  // Of a symptom only that it became more urgent is news.
  if (isAside(entry.state) || !(rises || (leads && entry.symptomOf === undefined))) return;
  if (rises) step(entry, 're-alarm', atMs);
  emit(alarmLine(state.well, entry, 'changed', atMs));
}

function leadsForLong(entry: AlarmEntry, leads: boolean, atMs: number): boolean {
  if (!leads) {
    delete entry.leadMs;
    return false;
  }
  entry.leadMs ??= atMs;
  if (atMs - entry.leadMs < LEADS_FOR_MS) return false;
  delete entry.leadMs;
  return true;
}

function sameLead(entry: AlarmEntry, finding: Finding): boolean {
  return isSameToTell(finding.causes[0]?.cause, entry.causes[0]?.cause);
}

/** The same, or one that no reader can tell from it: naming either is naming both. */
function isSameToTell(one: Cause | undefined, other: Cause | undefined): boolean {
  if (one === other) return true;
  return one !== undefined && other !== undefined && lookAlikesOf(one)?.causes.includes(other) === true;
}

function newLead(entry: AlarmEntry, finding: Finding): boolean {
  const [first, second] = finding.causes;
  if (!first || sameLead(entry, finding)) return false;
  return (
    first.weight - (second?.weight ?? 0) >= LEADS_BY ||
    !finding.causes.some((c) => c.cause === entry.causes[0]?.cause)
  );
}

/**
 * Counted from the first look that finds it unexplained: a watch that is asked once a run may have looked last hours ago, in the middle of
 * the trouble. One that rose over what explained it waits for nothing.
 */
function stillExplained(state: AlarmsState, entry: AlarmEntry, rises: boolean, atMs: number): boolean {
  const cause = explainedBy(entry.alarm, entry.priority, entry.pump, Object.values(state.entries));
  if (cause !== undefined) {
    entry.symptomOf = cause;
    delete entry.aloneMs;
    return true;
  }
  entry.aloneMs ??= atMs;
  return !rises && atMs - entry.aloneMs < OUTLIVES_MS;
}

function goesAway(
  state: AlarmsState,
  key: string,
  entry: AlarmEntry,
  { watch, atMs }: Opinion,
  emit: EmitAlarm,
): void {
  entry.awayMs ??= atMs;
  if (atMs - entry.awayMs < watch.offDelayS * 1000) return;
  entry.stands = false;
  delete entry.awayMs;
  clear(state, key, entry, atMs, emit);
}

/** The condition is gone: the cleared line is said where a raised one was, and nothing more than needed is remembered. */
function clear(state: AlarmsState, key: string, entry: AlarmEntry, atMs: number, emit: EmitAlarm): void {
  const wasTold = entry.told;
  entry.told = false;
  step(entry, entry.state === 'suppressed-by-design' ? 'resume-normal' : 'returns', atMs);
  if (wasTold) emit(alarmLine(state.well, entry, 'cleared', atMs));
  if (entry.state === 'normal') delete state.entries[key];
  else {
    // It only waits to be seen; what it said is in the store.
    entry.evidence = {};
    entry.causes = [];
  }
  explainTold(state);
}

/** Shelf, suppression or maintenance is over: back to what the condition says. */
export function resume(state: AlarmsState, entry: AlarmEntry, atMs: number, emit: EmitAlarm): void {
  delete entry.shelvedUntilMs;
  delete entry.symptomOf;
  delete entry.aloneMs;
  step(entry, entry.stands ? 'resume-standing' : 'resume-normal', atMs);
  if (entry.stands) tell(state, entry, atMs, emit);
}

/** Takes a step of the table; an illegal one changes nothing and says so. */
export function step(entry: AlarmEntry, taken: LifeStep, atMs: number): boolean {
  const next = nextState(entry.state, taken);
  if (next === undefined) return false;
  entry.state = next;
  entry.stateMs = atMs;
  return true;
}
