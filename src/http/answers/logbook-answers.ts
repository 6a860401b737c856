/** What people write down of a well besides its card, as the pages give and get it. */
import type { Answer } from '../../../shared/api/routes.ts';
import type { ApiRequest } from '../api-request.ts';
import type { WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { requireWell } from './well-answers.ts';

export async function writeEntry(
  deps: WebDeps,
  ask: ApiRequest<'writeEntry'>,
): Promise<Answer<'writeEntry'>> {
  const { status } = await requireWell(deps, ask.pathParam('well'));
  return entryAnswer(await deps.logbook.write({ ...ask.body.entry, well: status.well }, ask.body.by));
}

export function entryAnswer<E>(result: { entry: E } | { problem: string }): { entry: E } {
  if ('problem' in result) throw new ProblemError(409, result.problem);
  return result;
}
