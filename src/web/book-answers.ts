/** What people write down of a well besides its card, as the pages give and get it. */
import type { Answer } from '../../shared/api/routes.ts';
import type { Ask } from './ask.ts';
import type { EntryResult, WebDeps } from './deps.ts';
import { ProblemError } from './problem.ts';
import { wellNamed } from './well-answers.ts';

export function writeEntry(deps: WebDeps, ask: Ask<'writeEntry'>): Answer<'writeEntry'> {
  const { now } = wellNamed(deps, ask.part('well'));
  return kept(deps.desk.write({ ...ask.body.entry, well: now.well }, ask.body.by));
}

export function kept(result: EntryResult): Answer<'writeEntry'> {
  if ('no' in result) throw new ProblemError(409, result.no);
  return result;
}
