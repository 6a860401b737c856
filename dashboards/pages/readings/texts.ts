/** The texts of this page. */
import { readingsTexts } from '../../../shared/text/en/pages/readings.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: readingsTexts });
