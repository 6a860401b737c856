/** The texts of this page. */
import { newWellTexts } from '../../../shared/text/en/pages/new-well.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: newWellTexts });
