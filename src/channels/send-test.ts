/**
 * `send-test`: one notice that says it is a test, to one recipient by all its ways, and how each
 * went, in words. Nothing is kept.
 */
import { testNotice } from '../core/notify/test-notice.ts';
import { CHANNELS, channelsOf, type RecipientChannels } from './channels.ts';
import type { Senders } from './senders.ts';
import { texts } from './texts.ts';

export interface TestResult {
  channel: string;
  sent: boolean;
  /** One sentence. */
  text: string;
}

/** Tries each channel once. `nowMs` is the caller's clock. */
export async function sendTest(
  recipient: { name: string } & RecipientChannels,
  senders: Senders,
  nowMs: number,
): Promise<TestResult[]> {
  const results = channelsOf(recipient).map(async ({ id, name, address }): Promise<TestResult> => {
    const send = senders.senderFor(recipient.name, id);
    if (send === undefined)
      return {
        channel: id,
        sent: false,
        text: texts().settingsDoNotSayHow({ name: recipient.name, id }),
      };
    const sent = await send(testNotice(recipient.name, id, nowMs), nowMs);
    const words = CHANNELS[name].words(address);
    return sent.sent
      ? { channel: id, sent: true, text: texts().sentCheckThatItArrived(words) }
      : { channel: id, sent: false, text: sent.problem };
  });
  return Promise.all(results);
}
