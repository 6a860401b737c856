/** The texts of this page. */
import { refusedTexts } from '../../../shared/text/en/pages/refused.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: refusedTexts });
