/** Texts of the channel mail: what its settings are for, and what goes wrong with it. */
import { mailChannelTexts } from '../../../shared/text/en/channels/mail.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: mailChannelTexts });
