/** All ways of all recipients, made once from the settings: which sender serves which row. */
import { noticeChannelsOf, type Recipient } from '../core/notify/recipients.ts';
import { commandSender } from './command.ts';
import { openMailSender, type MailSettings } from './mail.ts';
import { sendFailure, type Send } from './sender.ts';
import { topicSender, type PublishNotice } from './mqtt-topic.ts';
import { webhookSender } from './webhook.ts';

export interface SendersOptions {
  recipients: readonly Recipient[];
  smtp?: MailSettings;
  /** Standard Webhooks secrets by the recipient's name. */
  webhookSecrets: Readonly<Record<string, () => string>>;
  /** Absent where there is no broker (a command that only sends). */
  publish?: PublishNotice;
}

export interface Senders {
  /** Undefined where the settings have no such recipient or way. */
  senderFor(to: string, channel: string): Send | undefined;
  close(): void;
}

export function openSenders(options: SendersOptions): Senders {
  const mail = options.smtp === undefined ? undefined : openMailSender(options.smtp);
  const byChannel = new Map<string, Send>();
  for (const recipient of options.recipients) {
    for (const channel of noticeChannelsOf(recipient)) {
      byChannel.set(`${recipient.name}\n${channel}`, makeSender(recipient, channel, { options, mail }));
    }
  }
  return {
    senderFor: (to, channel) => byChannel.get(`${to}\n${channel}`),
    close: () => mail?.close(),
  };
}

function makeSender(
  recipient: Recipient,
  channel: string,
  { options, mail }: { options: SendersOptions; mail: ReturnType<typeof openMailSender> | undefined },
): Send {
  if (channel.startsWith('mail:'))
    return mail?.to(channel.slice('mail:'.length)) ?? failingSender('the settings have no smtp section');
  if (recipient.webhook && channel === 'webhook') {
    const secret = options.webhookSecrets[recipient.name];
    return webhookSender({
      url: recipient.webhook.url,
      ...(secret === undefined ? {} : { secret: secret() }),
    });
  }
  if (recipient.command && channel === 'command') return commandSender(recipient.command);
  if (recipient.mqtt && channel === 'mqtt') {
    return options.publish === undefined
      ? failingSender('there is no broker here')
      : topicSender(recipient.mqtt.topic, options.publish);
  }
  return failingSender(`"${channel}" is no way of sending`);
}

function failingSender(reason: string): Send {
  return () => Promise.resolve(sendFailure(`Cannot send: ${reason}.`, false));
}
