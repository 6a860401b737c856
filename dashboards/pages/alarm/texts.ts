/** The texts of this page. */
import { alarmTexts } from '../../../shared/text/en/pages/alarm.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: alarmTexts });
