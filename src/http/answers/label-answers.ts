/**
 * The labels of a well in both unit systems, from its card, what is usual there, and what people
 * measured.
 */
import type { Answer } from '../../../shared/api/routes.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { buildLabels } from '../../logbook/labels/labels.ts';
import { newestReadings, type MeasuredFacts } from '../../logbook/readings/newest-readings.ts';
import type { WebDeps } from '../deps.ts';
import { requireWell } from './well-answers.ts';

export async function labelsAnswer(deps: WebDeps, name: string): Promise<Answer<'labels'>> {
  const { card, normals } = await requireWell(deps, name);
  const entries = await deps.logbook.entries(name);
  const measured = (pump: string): MeasuredFacts =>
    newestReadings({ pump, baseline: normals.find((one) => one.pump === pump)?.baseline, entries });
  const from = { card, measured, madeOn: localDate(deps.now(), card.timeZone) };
  return { us: buildLabels(from, 'us'), metric: buildLabels(from, 'metric') };
}
