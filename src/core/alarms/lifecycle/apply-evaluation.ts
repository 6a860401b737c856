/**
 * From a watch's opinion to an alarm: on-delay, off-delay, suppression, and what of it is told. A
 * finding counts from when it says that it began; its absence counts from the first look that says
 * so; a look that can't tell changes nothing.
 */
import { HOUR_MS } from '../../../../shared/units/duration.ts';
import { CATALOGUE, type WatchedKind } from '../../../../shared/alarms/catalogue.ts';
import type { Active, Evaluation } from '../evaluation.ts';
import type { Cause } from '../../../../shared/text/en/alarms/kinds.ts';
import { lookAlikesOf } from '../../../../shared/text/en/causes/look-alikes.ts';
import { isMoreUrgent, urgencyOf } from '../../../../shared/text/en/alarms/urgency.ts';
import { entryKey, type AlarmEntry, type AlarmsState } from './alarm-entry.ts';
import { isSuppressed, nextState, type LifeStep } from './lifecycle.ts';
import { alarmEvent, type EmitAlarm } from './alarm-event.ts';
import { explainedBy, explainedByTable } from './symptoms.ts';

/**
 * A symptom that outlives its cause by this long is told after all: the first explanation was not
 * all of it.
 */
const SYMPTOM_OUTLIVES_MS = HOUR_MS;
/**
 * A new leading cause is told when it leads by this much, so that two even ones do not take turns.
 */
const MIN_LEAD = 0.1;
/**
 * And when it has led for so long: a clue at its limit comes and goes (a thaw, a level by the
 * pump), and is no news each time.
 */
const MIN_LEAD_MS = 600_000;

export interface WatchResult {
  alarm: WatchedKind;
  atMs: number;
  pump?: string;
  node?: string;
  evaluation: Evaluation;
}

export function applyEvaluation(state: AlarmsState, result: WatchResult, emit: EmitAlarm): void {
  const { alarm, evaluation, atMs } = result;
  if (evaluation.is === 'cannot-tell') return;
  const key = entryKey(alarm, result.pump, result.node);
  const entry = state.entries[key];
  if (evaluation.is === 'clear') {
    if (entry?.active) handleClears(state, key, entry, result, emit);
    return;
  }
  if (entry?.active) {
    delete entry.clearSinceMs;
    handlePersists(state, entry, evaluation, atMs, emit);
    return;
  }
  if (atMs - evaluation.sinceMs < CATALOGUE[alarm].delays.onS * 1000) return;
  activate(state, key, entry, result, evaluation, emit);
}

function activate(
  state: AlarmsState,
  key: string,
  previous: AlarmEntry | undefined,
  { alarm, atMs, pump, node }: WatchResult,
  finding: Active,
  emit: EmitAlarm,
): void {
  const entry: AlarmEntry = {
    alarm,
    ...(pump !== undefined && { pump }),
    ...(node !== undefined && { node }),
    state: previous?.state ?? 'normal',
    active: true,
    notified: previous?.notified ?? false,
    sinceMs: finding.sinceMs,
    raisedMs: atMs,
    stateChangedMs: previous?.stateChangedMs ?? atMs,
    ...(previous?.shelvedUntilMs !== undefined && { shelvedUntilMs: previous.shelvedUntilMs }),
    priority: finding.priority ?? CATALOGUE[alarm].priority,
    reason: finding.reason,
    figures: finding.figures,
    evidence: finding.evidence,
    causes: finding.causes,
  };
  state.entries[key] = entry;
  const cause = explainedBy(entry, Object.values(state.entries));
  if (cause !== undefined && !isSuppressed(entry.state)) {
    entry.symptomOf = cause;
    applyStep(entry, 'suppress', atMs);
    return;
  }
  applyStep(entry, 'occurs', atMs);
  emitRaised(state, entry, atMs, emit);
}

/** Says the raised line unless somebody wished not to hear it, or was told already. */
function emitRaised(state: AlarmsState, entry: AlarmEntry, atMs: number, emit: EmitAlarm): void {
  if (entry.notified || isSuppressed(entry.state)) return;
  entry.notified = true;
  entry.raisedMs = atMs;
  emit(alarmEvent(state.well, entry, 'raised', atMs));
  updateSymptoms(state);
}

/**
 * What was told before and is explained by what came is its symptom from now on, and is its own
 * again when that is over.
 */
function updateSymptoms(state: AlarmsState): void {
  for (const entry of Object.values(state.entries))
    if (entry.notified && entry.active) updateSymptomOf(state, entry);
}

/** Of which other alarm one that was told is a symptom by now, if of any. It stays told. */
function updateSymptomOf(state: AlarmsState, entry: AlarmEntry): void {
  const by = explainedByTable(entry, Object.values(state.entries));
  if (by === undefined) delete entry.symptomOf;
  else entry.symptomOf = by;
}

function handlePersists(
  state: AlarmsState,
  entry: AlarmEntry,
  finding: Active,
  atMs: number,
  emit: EmitAlarm,
): void {
  const priority = finding.priority ?? CATALOGUE[entry.alarm].priority;
  const priorityRises = isMoreUrgent(urgencyOf({ ...entry, ...finding, priority }), urgencyOf(entry));
  const leadChanged = hasLedLongEnough(entry, hasNewLead(entry, finding), atMs);
  entry.reason = finding.reason;
  entry.figures = finding.figures;
  entry.evidence = finding.evidence;
  if (priorityRises || leadChanged || hasSameLead(entry, finding)) entry.causes = finding.causes;
  if (priorityRises) entry.priority = priority;
  if (entry.state === 'suppressed-by-design') {
    if (!isStillExplained(state, entry, priorityRises, atMs)) resume(state, entry, atMs, emit);
    return;
  }
  if (!entry.notified) return;
  updateSymptomOf(state, entry);
  // Of a symptom only that it became more urgent is news.
  if (isSuppressed(entry.state) || !(priorityRises || (leadChanged && entry.symptomOf === undefined))) return;
  if (priorityRises) applyStep(entry, 're-alarm', atMs);
  emit(alarmEvent(state.well, entry, 'changed', atMs));
}

function hasLedLongEnough(entry: AlarmEntry, leads: boolean, atMs: number): boolean {
  if (!leads) {
    delete entry.newLeadSinceMs;
    return false;
  }
  entry.newLeadSinceMs ??= atMs;
  if (atMs - entry.newLeadSinceMs < MIN_LEAD_MS) return false;
  delete entry.newLeadSinceMs;
  return true;
}

function hasSameLead(entry: AlarmEntry, finding: Active): boolean {
  return isIndistinguishable(finding.causes[0]?.cause, entry.causes[0]?.cause);
}

/** The same, or one that no reader can tell from it: naming either is naming both. */
function isIndistinguishable(one: Cause | undefined, other: Cause | undefined): boolean {
  if (one === other) return true;
  return one !== undefined && other !== undefined && lookAlikesOf(one)?.causes.includes(other) === true;
}

function hasNewLead(entry: AlarmEntry, finding: Active): boolean {
  const [first, second] = finding.causes;
  if (!first || hasSameLead(entry, finding)) return false;
  return (
    first.weight - (second?.weight ?? 0) >= MIN_LEAD ||
    !finding.causes.some((c) => c.cause === entry.causes[0]?.cause)
  );
}

/**
 * Counted from the first look that finds it unexplained: a watch that is asked once a run may have
 * looked last hours ago, in the middle of the trouble. One that rose over what explained it waits
 * for nothing.
 */
function isStillExplained(state: AlarmsState, entry: AlarmEntry, rises: boolean, atMs: number): boolean {
  const cause = explainedBy(entry, Object.values(state.entries));
  if (cause !== undefined) {
    entry.symptomOf = cause;
    delete entry.unexplainedSinceMs;
    return true;
  }
  entry.unexplainedSinceMs ??= atMs;
  return !rises && atMs - entry.unexplainedSinceMs < SYMPTOM_OUTLIVES_MS;
}

function handleClears(
  state: AlarmsState,
  key: string,
  entry: AlarmEntry,
  { alarm, atMs }: WatchResult,
  emit: EmitAlarm,
): void {
  entry.clearSinceMs ??= atMs;
  if (atMs - entry.clearSinceMs < CATALOGUE[alarm].delays.offS * 1000) return;
  entry.active = false;
  delete entry.clearSinceMs;
  emitCleared(state, key, entry, atMs, emit);
}

/**
 * The condition is gone: the cleared line is said where a raised one was, and nothing more than
 * needed is remembered.
 */
function emitCleared(
  state: AlarmsState,
  key: string,
  entry: AlarmEntry,
  atMs: number,
  emit: EmitAlarm,
): void {
  const wasNotified = entry.notified;
  entry.notified = false;
  applyStep(entry, entry.state === 'suppressed-by-design' ? 'resume-normal' : 'returns', atMs);
  if (wasNotified) emit(alarmEvent(state.well, entry, 'cleared', atMs));
  if (entry.state === 'normal') delete state.entries[key];
  else {
    // It only waits to be seen; what it said is in the store.
    entry.evidence = {};
    entry.causes = [];
  }
  updateSymptoms(state);
}

/** Shelf, suppression or maintenance is over: back to what the condition says. */
export function resume(state: AlarmsState, entry: AlarmEntry, atMs: number, emit: EmitAlarm): void {
  delete entry.shelvedUntilMs;
  delete entry.symptomOf;
  delete entry.unexplainedSinceMs;
  applyStep(entry, entry.active ? 'resume-active' : 'resume-normal', atMs);
  if (entry.active) emitRaised(state, entry, atMs, emit);
}

/** Takes a step of the table; an illegal one changes nothing and says so. */
export function applyStep(entry: AlarmEntry, transition: LifeStep, atMs: number): boolean {
  const next = nextState(entry.state, transition);
  if (next === undefined) return false;
  entry.state = next;
  entry.stateChangedMs = atMs;
  return true;
}
