/** Texts of MQTT: why a broker cannot be used and why a client is refused. */
import { mqttTexts } from '../../shared/text/en/server/mqtt.ts';
import { localized } from '../../shared/text/localized.ts';

export const texts = localized({ en: mqttTexts });
