/** The channels of all recipients, opened once from the settings: which sender serves which row. */
import type { ChannelContext, PublishNotice, Secret } from './channel.ts';
import { CHANNELS, CHANNEL_NAMES, channelsOf } from './channels.ts';
import type { ChannelName, RecipientChannels, SharedSettings } from './channels.ts';
import type { Send } from './sender.ts';

export interface SendersOptions {
  recipients: readonly ({ name: string } & RecipientChannels)[];
  settings: SharedSettings;
  /** By the setting that they belong to: `smtp`, `notices.0.webhook`. */
  secrets: Readonly<Record<string, Secret>>;
  /** Absent where there is no broker (a command that only sends). */
  publish?: PublishNotice;
}

export interface Senders {
  /** Undefined where the settings have no such recipient or channel. */
  senderFor(to: string, channel: string): Send | undefined;
  close(): void;
}

export async function openSenders(options: SendersOptions): Promise<Senders> {
  const used = CHANNEL_NAMES.filter((name) => options.recipients.some((one) => one[name] !== undefined));
  const open = await Promise.all(used.map((name) => CHANNELS[name].open(contextOf(name, options))));
  const byName = new Map(used.map((name, at) => [name, open[at]!]));
  const senders = new Map<string, Send>();
  for (const [at, recipient] of options.recipients.entries()) {
    for (const { id, name, address, own } of channelsOf(recipient)) {
      const secret = options.secrets[`notices.${at}.${name}`];
      senders.set(`${recipient.name}\n${id}`, byName.get(name)!.sender(own, address, secret));
    }
  }
  return {
    senderFor: (to, channel) => senders.get(`${to}\n${channel}`),
    close: () => open.forEach((one) => one.close?.()),
  };
}

function contextOf(
  name: ChannelName,
  { settings, secrets, publish }: SendersOptions,
): ChannelContext<object> {
  const key = CHANNELS[name].shared?.key;
  const shared = key === undefined ? undefined : (settings as Record<string, object | undefined>)[key];
  const secret = key === undefined ? undefined : secrets[key];
  return { ...(shared && { shared }), ...(secret && { secret }), ...(publish && { publish }) };
}
