/** What is said with a result: apart from ./texts.ts, since forms need those alone. */
import { limitTexts, waterAdvice } from '../text/en/logbook/water-advice.ts';
import { localized } from '../text/localized.ts';

export const adviceTexts = localized({ en: waterAdvice });
export const limitTextsOf = localized({ en: limitTexts });
