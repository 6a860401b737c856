/** The texts of this page. */
import { figuresTexts } from '../../../shared/text/en/pages/figures.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: figuresTexts });
