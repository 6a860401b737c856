/** The texts of this page. */
import { documentsTexts } from '../../../shared/text/en/pages/documents.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: documentsTexts });
