/**
 * Alarms as the API gives them, from the store's rows; and the acts that acknowledge or shelve one
 * by its id.
 */
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { storedReason, whyText } from '../../../shared/text/en/reasons/why.ts';
import type { StoredAlarm, WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { texts } from '../texts.ts';

/** Ids name their well first: `${well}/${pump or '-'}/${alarm}/${since}`. */
const WELL_OF_ID = /^([a-z0-9-]{1,40})\//;
/** Longer than this an alarm should be taken out of service, not put aside. */
const SHELVE_MAX_MS = 30 * DAY_MS;

export function alarmAnswer(row: StoredAlarm): AlarmAnswer {
  const { event, well, imported, alarm: _alarm, ...rest } = row;
  return {
    ...rest,
    // The row of a whole site is kept under its site's name.
    ...(well === '' || row.site !== undefined ? {} : { well }),
    alarm: event.alarm,
    priority: event.priority ?? 'note',
    active: isActive(row),
    ...(imported && { imported }),
    ...storedReason(event),
    why: whyText(event, 'both'),
    evidence: event.evidence ?? {},
    causes: event.causes ?? [],
  };
}

function isActive(row: StoredAlarm): boolean {
  return row.imported !== true && row.clearedMs === undefined && row.withdrawnMs === undefined;
}

/**
 * Active alarms of each well, from one query; those of whole sites are left to `activeSiteAlarms`.
 */
export async function activeByWell(deps: WebDeps, well?: string): Promise<Map<string, AlarmAnswer[]>> {
  const rows = await deps.store.alarms({ active: true, ...(well === undefined ? {} : { well }) });
  const byWell = new Map<string, AlarmAnswer[]>();
  for (const row of rows.filter((one) => isActive(one) && one.site === undefined)) {
    byWell.set(row.well, [...(byWell.get(row.well) ?? []), alarmAnswer(row)]);
  }
  return byWell;
}

/** Active alarms of whole sites, which have no well. */
export async function activeSiteAlarms(deps: WebDeps): Promise<AlarmAnswer[]> {
  const rows = await deps.store.alarms({ active: true });
  return rows.filter((row) => isActive(row) && row.site !== undefined).map(alarmAnswer);
}

/** @throws ProblemError 404 where no such alarm is kept, 409 where it no longer stands. */
async function requireActiveAlarm(deps: WebDeps, id: string): Promise<StoredAlarm> {
  const well = WELL_OF_ID.exec(id)?.[1];
  const rows = await deps.store.alarms(well === undefined ? {} : { well });
  const row = rows.find((one) => one.id === id);
  if (!row) throw new ProblemError(404, texts().noSuchAlarm(id));
  if (!isActive(row)) throw new ProblemError(409, texts().alarmIsOver);
  return row;
}

/** The act that says an alarm was seen. */
export async function acknowledgeAct(deps: WebDeps, id: string): Promise<WrittenAct> {
  const row = await requireActiveAlarm(deps, id);
  return { kind: 'acknowledged', ...alarmKey(row) };
}

/** The act that puts an alarm aside until a time. */
export async function shelveAct(deps: WebDeps, id: string, untilMs: number): Promise<WrittenAct> {
  const row = await requireActiveAlarm(deps, id);
  if (row.site !== undefined) throw new ProblemError(409, texts().siteAlarmCannotBeShelved);
  const aheadMs = untilMs - deps.now();
  if (aheadMs <= 0 || aheadMs > SHELVE_MAX_MS) {
    throw new ProblemError(400, texts().shelveWithinDays(SHELVE_MAX_MS / DAY_MS));
  }
  return { kind: 'shelved', ...alarmKey(row), until: new Date(untilMs).toISOString() };
}

function alarmKey(row: StoredAlarm): { well: string; pump?: string; alarm: string } {
  return { well: row.well, alarm: row.alarm, ...(row.pump === undefined ? {} : { pump: row.pump }) };
}
