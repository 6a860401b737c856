/** Texts of the logbook, and of files that are imported. */
import { importTexts } from '../../shared/text/en/logbook/import.ts';
import { logbookTexts } from '../../shared/text/en/logbook/logbook.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: logbookTexts });
export const importing = localized({ en: importTexts });
