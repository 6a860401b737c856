/**
 * What the watch of each kind of alarm said last, in words: the answer to "why is there no leak
 * alarm?".
 */
import type { EvaluationAnswer } from '../../../shared/api/alarms.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { BECAUSE_TEXT } from '../../../shared/text/en/reasons/because.ts';
import type { WatchAnswer } from '../../core/alarms/lifecycle/last-evaluations.ts';
import type { WebDeps } from '../deps.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

export async function evaluationsAnswer(deps: WebDeps, name: string): Promise<Answer<'evaluations'>> {
  return { evaluations: (await requireWell(deps, name)).evaluations.map(evaluationAnswer) };
}

function evaluationAnswer({ alarm, pump, last }: WatchAnswer): EvaluationAnswer {
  const named = { alarm, ...(pump !== undefined && { pump }) };
  if (last === 'active') return { ...named, is: 'active', text: texts().conditionIsPresent };
  if (last === 'clear') return { ...named, is: 'clear', text: texts().conditionIsNotPresent };
  return { ...named, is: 'cannot-tell', because: last, text: texts().cannotTell(BECAUSE_TEXT[last]) };
}
