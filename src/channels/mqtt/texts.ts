/** Texts of the channel mqtt: what its settings are for, and what goes wrong with it. */
import { mqttChannelTexts } from '../../../shared/text/en/channels/mqtt.ts';
import { localized } from '../../../shared/text/localized.ts';

export const texts = localized({ en: mqttChannelTexts });
