/** Why nothing is normal here, as the baseline line of a recording says it. */
import { noNormalText, notLearnedReasons } from '../../../shared/text/en/reasons/not-learned.ts';
import { localized } from '../../../shared/text/localized.ts';
import { sentenceOf, type ReasonOf } from '../../../shared/text/reason-of.ts';

const texts = localized({ en: { notLearnedReasons, noNormalText } });

export type NotLearned = ReasonOf<typeof notLearnedReasons>;

export function noneBecauseText(reason: NotLearned): string {
  return texts().noNormalText(sentenceOf(texts().notLearnedReasons, reason));
}
