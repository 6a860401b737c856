/** The sentence of a refusal, for whoever builds or repairs the node. */
import { localized } from '../../../shared/text/localized.ts';
import { sentenceOf } from '../../../shared/text/reason-of.ts';
import { wireReasons } from '../../../shared/text/en/refusals/wire-reasons.ts';
import type { Refusal } from './messages.ts';

const texts = localized({ en: wireReasons });

export function refusalText({ why }: Pick<Refusal, 'why'>): string {
  return sentenceOf(texts(), why);
}
