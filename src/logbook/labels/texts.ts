/** The texts of the lines on labels. */
import { labelTexts } from '../../../shared/text/en/label-lines.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: labelTexts });
