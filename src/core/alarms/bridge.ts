/**
 * Watches that still return a finding with an English sentence, `null` for clear and `undefined` for cannot tell. Goes when the last of them
 * is converted.
 */
import { CLEAR, cannotTell, type Active, type Evaluation } from './evaluation.ts';
import type { Finding } from './scene.ts';

export function toEvaluation(result: Evaluation | Finding | null | undefined): Evaluation {
  if (result === undefined) return cannotTell('unstated');
  if (result === null) return CLEAR;
  return 'is' in result ? result : toActive(result);
}

function toActive({ why, ...rest }: Finding): Active {
  return { is: 'active', ...rest, reason: 'as-written', figures: { text: why } };
}
