/** The labels of a well in both unit systems, from its card, what is usual there, and what people measured. */
import type { Answer } from '../../shared/api/routes.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { labelsOf } from '../book/labels.ts';
import { newestReadings, type MeasuredFacts } from '../book/newest-readings.ts';
import type { WebDeps } from './deps.ts';
import { wellNamed } from './well-answers.ts';

export function labelsAnswer(deps: WebDeps, name: string): Answer<'labels'> {
  const { card, usual } = wellNamed(deps, name);
  const entries = deps.desk.entries(name);
  const measured = (pump: string): MeasuredFacts =>
    newestReadings({ pump, usual: usual.find((one) => one.pump === pump)?.baseline, entries });
  const from = { card, measured, made: localDate(deps.now(), card.timeZone) };
  return { us: labelsOf(from, 'us'), metric: labelsOf(from, 'metric') };
}
