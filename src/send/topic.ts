/** A message on an MQTT topic of one's choice, for a siren, a light or a home's own automation: QoS 1, not retained, JSON. */
import { failed, messageOf, noticeData, type Send } from './sender.ts';

/** The broker's own `publish`, narrowed. */
export type PublishNotice = (
  topic: string,
  payload: string,
  how: { qos: 0 | 1; retain: boolean },
) => Promise<void>;

const PUBLISH_WITHIN_MS = 15_000;

export function topicSender(topic: string, publish: PublishNotice): Send {
  return async (notice) => {
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(
        () => reject(new Error(`the broker did not confirm it within ${PUBLISH_WITHIN_MS / 1000} s`)),
        PUBLISH_WITHIN_MS,
      );
    });
    try {
      await Promise.race([
        publish(topic, JSON.stringify(noticeData(notice)), { qos: 1, retain: false }),
        late,
      ]);
      return { sent: true };
    } catch (error) {
      return failed(`Cannot tell the topic ${topic}: ${messageOf(error)}.`, true);
    } finally {
      clearTimeout(timer);
    }
  };
}
