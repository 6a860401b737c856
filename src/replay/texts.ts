/** Texts of replay. */
import { recordingTexts } from '../../shared/text/en/cli/recordings.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: recordingTexts });
