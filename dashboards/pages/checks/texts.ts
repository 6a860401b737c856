/** The texts of this page. */
import { checksTexts } from '../../../shared/text/en/pages/checks.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: checksTexts });
