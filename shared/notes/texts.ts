/** Texts of notes: names of days, ends in words, and what is asked where an end is not clear. */
import { noteTexts } from '../text/en/logbook/notes.ts';
import { localized } from '../text/localized.ts';

export const texts = localized({ en: noteTexts });
