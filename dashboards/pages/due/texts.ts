/** The texts of this page. */
import { dueTexts } from '../../../shared/text/en/pages/due.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: dueTexts });
