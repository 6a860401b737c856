/**
 * A message on an MQTT topic of one's choice, for a siren, a light or a home's own automation: QoS
 * 1, not retained, JSON.
 */
import type { PublishNotice } from '../channel.ts';
import { sendFailure, errorMessage, noticePayload, type Send } from '../sender.ts';
import { texts } from './texts.ts';

const PUBLISH_TIMEOUT_MS = 15_000;

export function topicSender(topic: string, publish: PublishNotice): Send {
  return async (notice) => {
    let timer: NodeJS.Timeout | undefined;
    const timeout = new Promise<never>((_, reject) => {
      timer = setTimeout(
        () => reject(new Error(texts().brokerDidNotConfirm(PUBLISH_TIMEOUT_MS / 1000))),
        PUBLISH_TIMEOUT_MS,
      );
    });
    try {
      await Promise.race([
        publish(topic, JSON.stringify(noticePayload(notice)), { qos: 1, retain: false }),
        timeout,
      ]);
      return { sent: true };
    } catch (error) {
      return sendFailure(texts().cannotTellTheTopic({ topic, errorMessage: errorMessage(error) }), true);
    } finally {
      clearTimeout(timer);
    }
  };
}
