/**
 * What to bring to a well, the visits that were, and the proof of one: gathered from the store and
 * given to the book's pure parts.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { partsList, type PartsListInput } from '../../logbook/visits/parts-list.ts';
import type { PartMeasurements } from '../../logbook/visits/part-facts.ts';
import type { ReadingKind } from '../../../shared/entries/entry-fields.ts';
import { currentEntries, entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import { newestReadings } from '../../logbook/readings/newest-readings.ts';
import { reportWindows } from '../../logbook/visits/before-after.ts';
import { visitAnswer, visitReport } from '../../logbook/visits/visit-report.ts';
import { visitsOf } from '../../logbook/visits/visits.ts';
import { activeByWell } from './alarm-answers.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

export async function partsListAnswer(deps: WebDeps, name: string): Promise<Answer<'partsList'>> {
  const live = await requireWell(deps, name);
  const active = ((await activeByWell(deps, name)).get(name) ?? []).map(({ alarm, pump, causes }) => ({
    alarm,
    causes,
    ...(pump !== undefined && { pump }),
  }));
  const question = {
    card: live.card,
    active,
    measured: partMeasurements(live, await deps.logbook.entries(name)),
  };
  const list = (units: UnitSystem): ReturnType<typeof partsList> =>
    partsList({ ...question, units } satisfies PartsListInput);
  return { us: list('us'), metric: list('metric') };
}

/**
 * The newest of what is usual now and of what people read, as on the labels; what has no place in
 * SI as it was written.
 */
function partMeasurements({ normals, card }: LiveWell, entries: readonly Entry[]): PartMeasurements {
  const pump = card.pumps[0]?.id ?? 'p1';
  const baseline = normals.find((one) => one.pump === pump)?.baseline;
  const read = newestReadings({ pump, baseline: baseline, entries });
  const newest = (what: ReadingKind): string | undefined =>
    entriesOf(currentEntries(entries), 'reading').findLast(({ body }) => body.what === what)?.body.value;
  return omitUndefined({
    cutInKpa: read['cut-in']?.si,
    cutOutKpa: read['cut-out']?.si,
    capacitor: newest('capacitor'),
    staticLevel: newest('static-level'),
  });
}

export async function visitsAnswer(deps: WebDeps, name: string): Promise<Answer<'visits'>> {
  const { status } = await requireWell(deps, name);
  const entries = currentEntries(await deps.logbook.entries(status.well));
  const visits = visitsOf(await deps.store.acts({ well: status.well, fromMs: 0 }));
  return { nowMs: deps.now(), visits: visits.map((visit) => visitAnswer(visit, entries)).reverse() };
}

/** @throws ProblemError 404 where there was no such visit. */
export async function reportAnswer(deps: WebDeps, name: string, id: string): Promise<Answer<'report'>> {
  const { card } = await requireWell(deps, name);
  const visit = visitsOf(await deps.store.acts({ well: name, fromMs: 0 })).find((one) => one.id === id);
  if (!visit) throw new ProblemError(404, texts().noSuchVisit({ well: name, visit: id }));
  const { before, after } = reportWindows(visit);
  const toMs = after?.[1] ?? before[1];
  return visitReport({
    visit,
    timeZone: card.timeZone,
    cycles: (await deps.store.cycles(name, before[0], toMs + 1)).map(({ event }) => event),
    days: await deps.store.days(name, before[0], toMs + DAY_MS),
    baselines: await deps.store.baselines(name),
    entries: await deps.logbook.entries(name),
    pumps: card.pumps.map(({ id }) => id),
    nowMs: deps.now(),
  });
}
