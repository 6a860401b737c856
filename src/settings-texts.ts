/** Texts of settings: what each is for, and what is wrong with them. */
import { settingsTexts } from '../shared/text/en/cli/settings.ts';
import { localized } from '../shared/text/localized.ts';

export const texts = localized({ en: settingsTexts });
