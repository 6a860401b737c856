/** `send-test`: one notice that says it is a test, to one recipient by all its ways, and how each went, in words. Nothing is kept. */
import { waysOf, type Recipient } from '../notice/recipients.ts';
import { testNotice } from '../notice/test-notice.ts';
import type { Senders } from './senders.ts';

export interface TestResult {
  way: string;
  sent: boolean;
  /** One sentence. */
  says: string;
}

/** Tries each way once. `nowMs` is the caller's clock. */
export async function sendTest(recipient: Recipient, senders: Senders, nowMs: number): Promise<TestResult[]> {
  const results = waysOf(recipient).map(async (way): Promise<TestResult> => {
    const send = senders.senderFor(recipient.name, way);
    if (send === undefined)
      return { way, sent: false, says: `The settings do not say how to tell ${recipient.name} by ${way}.` };
    const sent = await send(testNotice(recipient.name, way, nowMs), nowMs);
    return sent.sent
      ? { way, sent: true, says: `Handed over by ${wayWords(way)}. Look whether it has come.` }
      : { way, sent: false, says: sent.problem };
  });
  return Promise.all(results);
}

function wayWords(way: string): string {
  if (way.startsWith('mail:')) return `mail to ${way.slice('mail:'.length)}`;
  return way === 'mqtt' ? 'MQTT' : way;
}
