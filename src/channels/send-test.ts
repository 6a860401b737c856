/**
 * `send-test`: one notice that says it is a test, to one recipient by all its ways, and how each
 * went, in words. Nothing is kept.
 */
import { noticeChannelsOf, type Recipient } from '../core/notify/recipients.ts';
import { testNotice } from '../core/notify/test-notice.ts';
import type { Senders } from './senders.ts';

export interface TestResult {
  channel: string;
  sent: boolean;
  /** One sentence. */
  text: string;
}

/** Tries each way once. `nowMs` is the caller's clock. */
export async function sendTest(recipient: Recipient, senders: Senders, nowMs: number): Promise<TestResult[]> {
  const results = noticeChannelsOf(recipient).map(async (channel): Promise<TestResult> => {
    const send = senders.senderFor(recipient.name, channel);
    if (send === undefined)
      return {
        channel,
        sent: false,
        text: `The settings do not say how to tell ${recipient.name} by ${channel}.`,
      };
    const sent = await send(testNotice(recipient.name, channel, nowMs), nowMs);
    return sent.sent
      ? { channel, sent: true, text: `Handed over by ${channelWords(channel)}. Look whether it has come.` }
      : { channel, sent: false, text: sent.problem };
  });
  return Promise.all(results);
}

function channelWords(channel: string): string {
  if (channel.startsWith('mail:')) return `mail to ${channel.slice('mail:'.length)}`;
  return channel === 'mqtt' ? 'MQTT' : channel;
}
