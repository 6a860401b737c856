/** Texts of the store. */
import { storeTexts } from '../../shared/text/en/server/store.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: storeTexts });
