/** The texts of this page. */
import { labelsTexts } from '../../../shared/text/en/pages/labels.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: labelsTexts });
