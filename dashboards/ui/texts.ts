/** The texts of the parts that several pages share. */
import { uiTexts } from '../../shared/text/en/pages/ui.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: uiTexts });
