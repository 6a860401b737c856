/** The texts of this page. */
import { waterTexts } from '../../../shared/text/en/pages/water.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: waterTexts });
