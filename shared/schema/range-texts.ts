/** How spans of values are said. */
import { ranges } from '../text/en/refusals/ranges.ts';
import { localized } from '../text/localized.ts';

export const rangeTexts = localized({ en: ranges });
