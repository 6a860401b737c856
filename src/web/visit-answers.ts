/** What to bring to a well, the visits that were, and the proof of one: gathered from the store and given to the book's pure parts. */
import type { Answer } from '../../shared/api/routes.ts';
import type { VisitAnswer } from '../../shared/api/visits.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';
import { bringOf, type BringQuestion } from '../book/bring.ts';
import type { Measured } from '../book/bring-facts.ts';
import { currentEntries } from '../book/entry.ts';
import { newestReadings } from '../book/newest-readings.ts';
import { PROOF_DAYS, proofOf, proofWindows } from '../book/proof.ts';
import { touchedIn, visitsOf, workOf, type Visit } from '../book/visits.ts';
import { standingByWell } from './alarm-answers.ts';
import type { LiveWell, StoredEntry, WebDeps } from './deps.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

const DAY_MS = 86_400_000;

export function bringAnswer(deps: WebDeps, name: string): Answer<'bring'> {
  const live = wellNamed(deps, name);
  const standing = (standingByWell(deps, name).get(name) ?? []).map(({ alarm, pump, causes }) => ({
    alarm,
    causes,
    ...(pump !== undefined && { pump }),
  }));
  const question = { card: live.card, standing, measured: measuredOf(live, deps.desk.entries(name)) };
  const list = (units: UnitSystem): ReturnType<typeof bringOf> =>
    bringOf({ ...question, units } satisfies BringQuestion);
  return { us: list('us'), metric: list('metric') };
}

/** The newest of what is usual now and of what people read, as on the labels; what has no place in SI as it was written. */
function measuredOf({ usual, card }: LiveWell, entries: readonly StoredEntry[]): Measured {
  const pump = card.pumps[0]?.id ?? 'p1';
  const baseline = usual.find((one) => one.pump === pump)?.baseline;
  const read = newestReadings({ pump, usual: baseline, entries });
  const newest = (what: string): string | undefined => {
    const value = currentEntries(entries).findLast(
      ({ kind, body }) => kind === 'reading' && body['what'] === what,
    )?.body['value'];
    return typeof value === 'string' ? value : undefined;
  };
  const [capacitor, staticLevel] = [newest('capacitor'), newest('static-level')];
  return {
    ...(read['cut-in'] && { cutInKpa: read['cut-in'].si }),
    ...(read['cut-out'] && { cutOutKpa: read['cut-out'].si }),
    ...(capacitor !== undefined && { capacitor }),
    ...(staticLevel !== undefined && { staticLevel }),
  };
}

export function visitsAnswer(deps: WebDeps, name: string): Answer<'visits'> {
  const { now } = wellNamed(deps, name);
  const entries = currentEntries(deps.desk.entries(now.well));
  const visits = visitsOf(deps.store.acts({ well: now.well, fromMs: 0 }));
  return { nowMs: deps.now(), visits: visits.map((visit) => visitAnswer(visit, entries)).reverse() };
}

function visitAnswer(visit: Visit, entries: readonly StoredEntry[]): VisitAnswer {
  const { quietFromMs: _from, quietUntilMs: _until, ...told } = visit;
  const work = workOf(visit, entries);
  const { touched, newBaseline } = touchedIn(work);
  return { ...told, touched, asksNewBaseline: newBaseline, work };
}

/** @throws ProblemError 404 where there was no such visit. */
export function proofAnswer(deps: WebDeps, name: string, id: string): Answer<'proof'> {
  const { card } = wellNamed(deps, name);
  const visit = visitsOf(deps.store.acts({ well: name, fromMs: 0 })).find((one) => one.id === id);
  if (!visit) throw new ProblemError(404, `No visit to ${name} is called ${id}.`);
  const { before, after } = proofWindows(visit);
  const toMs = after?.[1] ?? before[1];
  const cycles = deps.store.cycles(name, before[0], toMs + 1).map(({ event }) => event);
  const days = deps.store.days(name, before[0], toMs + DAY_MS);
  const baselines = deps.store.baselines(name);
  const question = { visit, timeZone: card.timeZone, cycles, days, baselines };
  return {
    nowMs: deps.now(),
    visit: visitAnswer(visit, currentEntries(deps.desk.entries(name))),
    days: PROOF_DAYS,
    pumps: card.pumps.map(({ id: pump }) => ({ pump, lines: proofOf({ ...question, pump }) })),
  };
}
