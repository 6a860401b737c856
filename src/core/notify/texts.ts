/** The texts of notices. */
import { noticeTexts } from '../../../shared/text/en/notices.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: noticeTexts });
