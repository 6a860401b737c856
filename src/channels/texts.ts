/** Texts that all notice channels share. */
import { channelTexts } from '../../shared/text/en/channels/channels.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: channelTexts });
