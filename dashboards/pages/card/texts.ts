/** The texts of this page. */
import { cardTexts } from '../../../shared/text/en/pages/card.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: cardTexts });
