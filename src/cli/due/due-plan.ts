/**
 * `stillwell due plan`: days set for what nobody wrote down, so many wells a working day, wells of
 * one site one after the other. It shows the plan; with --write each check gets its day as people
 * set one. What had a plan already keeps the rest of it.
 */
import type { DueRowAnswer } from '../../../shared/api/due.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { addDays } from '../../logbook/due/dates.ts';
import { latestPlans } from '../../logbook/due/check-plans.ts';
import { currentEntries } from '../../../shared/entries/entry.ts';
import { EXIT, UsageError, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';
import { asUsageError, type Actor } from '../logbook/write-entry.ts';
import { texts } from './texts.ts';

export interface PlanOptions {
  site?: string | undefined;
  /** ISO date; tomorrow unless given. */
  from?: string | undefined;
  wellsADay: number;
  write: boolean;
  json: boolean;
  actor: Actor;
}

interface PlannedVisit {
  on: string;
  well: string;
  site?: string;
  checks: string[];
}

/** Far enough for every proposal. */
const HORIZON_DAYS = 3_660;

export async function planDue(io: Io, api: ServerApi, options: PlanOptions): Promise<number> {
  const { site, write, json } = options;
  const query = { days: String(HORIZON_DAYS), ...(site !== undefined && { site }) };
  const { notRecorded, nowMs } = await api.get('due', query);
  const from = options.from ?? addDays(localDate(nowMs, 'UTC'), 1);
  if (from < localDate(nowMs, 'UTC')) throw new UsageError(texts().fromMustNot(from));
  const visits = visitsOf(notRecorded, from, options.wellsADay);
  if (write) for (const visit of visits) await writePlan(api, visit, options.actor); // oxlint-disable-line no-await-in-loop
  for (const visit of visits) io.out(json ? JSON.stringify(visit) : visitWords(visit));
  if (!json) io.out(summaryWords(visits, write));
  return EXIT.ok;
}

function visitsOf(rows: readonly DueRowAnswer[], from: string, wellsADay: number): PlannedVisit[] {
  const wells = new Map<string, Omit<PlannedVisit, 'on'>>();
  for (const { well, site, check } of rows) {
    const one = wells.get(well) ?? { well, ...(site !== undefined && { site }), checks: [] };
    one.checks.push(check);
    wells.set(well, one);
  }
  const route = ({ site = '', well }: Omit<PlannedVisit, 'on'>): string => `${site} ${well}`;
  let on = workingDay(from);
  return [...wells.values()]
    .toSorted((a, b) => route(a).localeCompare(route(b), 'en', { numeric: true }))
    .map((one, at) => {
      if (at > 0 && at % wellsADay === 0) on = workingDay(addDays(on, 1));
      return { on, ...one };
    });
}

/** That day, or the Monday after it. */
function workingDay(on: string): string {
  const day = new Date(`${on}T00:00:00Z`).getUTCDay();
  return day === 0 ? addDays(on, 1) : day === 6 ? addDays(on, 2) : on;
}

async function writePlan(api: ServerApi, { well, checks, on }: PlannedVisit, actor: Actor): Promise<void> {
  const plans = latestPlans(currentEntries((await api.get('entries', { well })).entries));
  for (const check of checks) {
    const { title, text, recurrence } = plans.get(check) ?? {};
    const entry = {
      kind: 'check-plan',
      check,
      next: on,
      ...(title !== undefined && { title }),
      ...(text !== undefined && { text }),
      ...(recurrence && (recurrence.is === 'days' ? { everyDays: recurrence.days } : { on: recurrence.day })),
    };
    // One upon the other, as a page would write them.
    // oxlint-disable-next-line no-await-in-loop
    await asUsageError(() => api.post('writeEntry', { well }, { entry, ...actor }));
  }
}

function visitWords({ on, well, site, checks }: PlannedVisit): string {
  return `${on}  ${well}${site === undefined ? '' : `  (${site})`}  ${checks.join(', ')}`;
}

function summaryWords(visits: readonly PlannedVisit[], written: boolean): string {
  const checks = visits.reduce((sum, visit) => sum + visit.checks.length, 0);
  const last = visits.at(-1);
  if (last === undefined) return texts().nothingToPlanEveryCheck;
  const all = texts().onUp({
    checks,
    wells: visits.length,
    on: last.on,
  });
  return written ? texts().planSaved(all) : texts().planOfNothingWasSaved(all);
}
