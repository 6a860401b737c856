/** Texts that stand on every label and every sheet. */
import { LABEL_SHEET } from '../text/en/label-words.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: LABEL_SHEET });
