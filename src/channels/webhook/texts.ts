/** Texts of the channel webhook: what its settings are for, and what goes wrong with it. */
import { webhookChannelTexts } from '../../../shared/text/en/channels/webhook.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: webhookChannelTexts });
