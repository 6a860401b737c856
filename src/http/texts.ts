/** Texts of the API. */
import { httpTexts } from '../../shared/text/en/server/http.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: httpTexts });
