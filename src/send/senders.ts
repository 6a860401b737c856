/** All ways of all recipients, made once from the settings: which sender serves which row. */
import { waysOf, type Recipient } from '../notice/recipients.ts';
import { commandSender } from './command.ts';
import { openMail, type MailSettings } from './mail.ts';
import { failed, type Send } from './sender.ts';
import { topicSender, type PublishNotice } from './topic.ts';
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
  senderFor(to: string, way: string): Send | undefined;
  close(): void;
}

export function openSenders(options: SendersOptions): Senders {
  const mail = options.smtp === undefined ? undefined : openMail(options.smtp);
  const byWay = new Map<string, Send>();
  for (const recipient of options.recipients) {
    for (const way of waysOf(recipient)) {
      byWay.set(`${recipient.name}\n${way}`, makeSender(recipient, way, { options, mail }));
    }
  }
  return {
    senderFor: (to, way) => byWay.get(`${to}\n${way}`),
    close: () => mail?.close(),
  };
}

function makeSender(
  recipient: Recipient,
  way: string,
  { options, mail }: { options: SendersOptions; mail: ReturnType<typeof openMail> | undefined },
): Send {
  if (way.startsWith('mail:'))
    return mail?.to(way.slice('mail:'.length)) ?? unable('the settings have no smtp section');
  if (recipient.webhook && way === 'webhook') {
    const secret = options.webhookSecrets[recipient.name];
    return webhookSender({
      url: recipient.webhook.url,
      ...(secret === undefined ? {} : { secret: secret() }),
    });
  }
  if (recipient.command && way === 'command') return commandSender(recipient.command);
  if (recipient.mqtt && way === 'mqtt') {
    return options.publish === undefined
      ? unable('there is no broker here')
      : topicSender(recipient.mqtt.topic, options.publish);
  }
  return unable(`"${way}" is no way of sending`);
}

function unable(why: string): Send {
  return () => Promise.resolve(failed(`Cannot send: ${why}.`, false));
}
