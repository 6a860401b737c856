/** The texts of this page. */
import { exportTexts } from '../../../shared/text/en/pages/export.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: exportTexts });
