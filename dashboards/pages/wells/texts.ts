/** The texts of this page. */
import { wellsTexts } from '../../../shared/text/en/pages/wells.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: wellsTexts });
