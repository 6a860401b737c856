/** How spans of values are said, and the rules of queries. */
import { queryRules } from '../text/en/refusals/query-rules.ts';
import { ranges } from '../text/en/refusals/ranges.ts';
import { localized } from '../text/localized.ts';

export const rangeTexts = localized({ en: ranges });
export const queryTexts = localized({ en: queryRules });
