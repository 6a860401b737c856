/**
 * Who is told, as the settings say it, and by which ways. The shape is the settings' own
 * (src/config/settings.ts) without what only the senders need; one row is made for each way, so
 * that a mail that went out is not sent again because a second address failed.
 */
import type { Priority } from '../../../shared/text/en/alarms/kinds.ts';

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

/**
 * `mail:anna@farm.example`, `webhook`, `mqtt`, `command`: kept in the row, found again when it is
 * sent.
 */
export type NoticeChannel = `mail:${string}` | 'webhook' | 'mqtt' | 'command';

export function noticeChannelsOf(recipient: Recipient): NoticeChannel[] {
  const channels: NoticeChannel[] = (recipient.mail?.to ?? []).map(
    (address): NoticeChannel => `mail:${address}`,
  );
  if (recipient.webhook) channels.push('webhook');
  if (recipient.mqtt) channels.push('mqtt');
  if (recipient.command) channels.push('command');
  return channels;
}
