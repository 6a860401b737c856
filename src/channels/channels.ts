/**
 * All ways of sending notices, by the name that they have in the settings. A new one is a folder
 * here and a row: the settings, their help and checks, the secrets and the senders follow.
 */
import type { z } from 'zod';
import type { Channel } from './channel.ts';
import { command } from './command/channel.ts';
import { mail } from './mail/channel.ts';
import { mqtt } from './mqtt/channel.ts';
import { webhook } from './webhook/channel.ts';

const TABLE = { mail, webhook, mqtt, command } as const;
export const CHANNELS: Readonly<Record<ChannelName, Channel>> = TABLE;

export type ChannelName = keyof typeof TABLE;
export const CHANNEL_NAMES = Object.keys(TABLE) as readonly ChannelName[];

/** What a recipient's settings hold for each channel by which it is notified. */
export type RecipientChannels = { [Name in ChannelName]?: z.output<(typeof TABLE)[Name]['shape']> };
/** The shared parts, by their keys. */
export type SharedSettings = {
  [Part in SharedPart as Part['key']]?: z.output<Part['shape']>;
};
type SharedPart = Extract<(typeof TABLE)[ChannelName], { shared: unknown }>['shared'];

export const SHARED_PARTS = CHANNEL_NAMES.flatMap((name) => CHANNELS[name].shared ?? []);

/** A channel of one recipient, and its address if it has several: `webhook`, `mail:anna@…`. */
export interface RecipientChannel {
  id: string;
  name: ChannelName;
  address: string;
  own: object;
}

export function channelsOf(recipient: RecipientChannels): RecipientChannel[] {
  return CHANNEL_NAMES.flatMap((name): RecipientChannel[] => {
    const own = recipient[name];
    if (own === undefined) return [];
    const addresses = CHANNELS[name].addresses?.(own);
    return addresses === undefined
      ? [{ id: name, name, address: '', own }]
      : addresses.map((address) => ({ id: `${name}:${address}`, name, address, own }));
  });
}
