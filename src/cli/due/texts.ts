/** Texts of the commands for due checks. */
import { dueCommandTexts } from '../../../shared/text/en/cli/due.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: dueCommandTexts });
