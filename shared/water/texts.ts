/** Rules of results as they are written, and how units were read. */
import { waterRules } from '../text/en/refusals/water-rules.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: waterRules });
