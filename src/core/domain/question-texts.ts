/** The questions about a card. */
import { cardQuestionTexts } from '../../../shared/text/en/questions/card-questions.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: cardQuestionTexts });
