/** Texts of the commands for cards. */
import { cardCommandTexts } from '../../../shared/text/en/cli/card.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: cardCommandTexts });
