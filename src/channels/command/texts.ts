/** Texts of the channel command: what its settings are for, and what goes wrong with it. */
import { commandChannelTexts } from '../../../shared/text/en/channels/command.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: commandChannelTexts });
