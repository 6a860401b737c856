/** The texts of this page. */
import { visitTexts } from '../../../shared/text/en/pages/visit.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: visitTexts });
