/** The texts of the parts list. */
import { partFactTexts } from '../../../shared/text/en/part-facts.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: partFactTexts });
