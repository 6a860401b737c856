/** The texts of the frame around the pages, and of words that several pages share. */
import { appTexts } from '../shared/text/en/pages/app.ts';
import { localized } from '../shared/text/localized.ts';

export const texts = localized({ en: appTexts });
