/**
 * Who is told, as the settings say it, and by which ways. The shape is the settings' own (src/config/settings.ts) without what only
 * the senders need; one row is made for each way, so that a mail that went out is not sent again because a second address failed.
 */
import type { Priority } from '../../shared/words/kinds.ts';

export interface Recipient {
  name: string;
  priorities: readonly Priority[];
  /** Absent: all wells. */
  wells?: readonly string[];
  mail?: { to: readonly string[] };
  webhook?: { url: string };
  mqtt?: { topic: string };
  command?: { program: string; args: readonly string[] };
}

/** `mail:anna@farm.example`, `webhook`, `mqtt`, `command`: kept in the row, found again when it is sent. */
export type Way = `mail:${string}` | 'webhook' | 'mqtt' | 'command';

export function waysOf(recipient: Recipient): Way[] {
  const ways: Way[] = (recipient.mail?.to ?? []).map((address): Way => `mail:${address}`);
  if (recipient.webhook) ways.push('webhook');
  if (recipient.mqtt) ways.push('mqtt');
  if (recipient.command) ways.push('command');
  return ways;
}
