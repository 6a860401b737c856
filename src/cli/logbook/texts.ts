/** Texts of the commands that read and write what a well’s logbook holds. */
import { logbookCommandTexts } from '../../../shared/text/en/cli/logbook.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: logbookCommandTexts });
