/** The texts of due checks. */
import { dueTexts } from '../../../shared/text/en/checks/due-texts.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: dueTexts });
