/** The texts of this page. */
import { wellTexts } from '../../../shared/text/en/pages/well.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: wellTexts });
