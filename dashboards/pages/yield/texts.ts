/** The texts of this page. */
import { yieldPageTexts } from '../../../shared/text/en/pages/yield.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: yieldPageTexts });
