/** The texts of the components that pages and files share. */
import { viewTexts } from '../text/en/pages/view.ts';
import { yieldViewTexts } from '../text/en/yield-tests.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: viewTexts });
export const yieldTexts = localized({ en: yieldViewTexts });
