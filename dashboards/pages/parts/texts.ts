/** The texts of this page. */
import { partsTexts } from '../../../shared/text/en/pages/parts.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: partsTexts });
