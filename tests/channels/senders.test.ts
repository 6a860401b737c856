import { describe, expect, test } from 'vitest';
import { channelsOf, type RecipientChannels } from '../../src/channels/channels.ts';
import { openSenders } from '../../src/channels/senders.ts';
import { sendTest } from '../../src/channels/send-test.ts';
import { noticePayload } from '../../src/channels/sender.ts';
import { topicSender } from '../../src/channels/mqtt/sender.ts';
import { notice, NOW_MS } from './support.ts';

describe('topicSender', () => {
  test('publishes the notice as JSON, QoS 1, not retained', async () => {
    const published: unknown[] = [];
    const send = topicSender('farm/siren', (topic, payload, how) => {
      published.push([topic, JSON.parse(payload), how]);
      return Promise.resolve();
    });
    expect(await send(notice(), NOW_MS)).toEqual({ sent: true });
    expect(published).toEqual([['farm/siren', noticePayload(notice()), { qos: 1, retain: false }]]);
  });

  test('says why it could not, and is tried again', async () => {
    const send = topicSender('farm/siren', () =>
      Promise.reject(new Error('there is no connection to the broker just now')),
    );
    expect(await send(notice(), NOW_MS)).toEqual({
      sent: false,
      retryable: true,
      problem: 'Cannot publish on the topic farm/siren: there is no connection to the broker just now.',
    });
  });
});

test('channelsOf: one for each address, hook, topic and command', () => {
  const ids = channelsOf({
    mail: { to: ['a@farm.example', 'b@farm.example'] },
    webhook: { url: 'https://hook.example' },
    mqtt: { topic: 'farm/siren' },
    command: { program: '/opt/lamp', args: [] },
  }).map(({ id }) => id);
  expect(ids).toEqual(['mail:a@farm.example', 'mail:b@farm.example', 'webhook', 'mqtt', 'command']);
  expect(channelsOf({})).toEqual([]);
});

describe('openSenders', () => {
  const recipients: ({ name: string } & RecipientChannels)[] = [
    { name: 'anna', mail: { to: ['anna@farm.example'] } },
    { name: 'siren', mqtt: { topic: 'farm/siren' } },
    { name: 'lamp', command: { program: process.execPath, args: ['-e', ''] } },
    { name: 'broken', command: { program: '/nowhere/lamp', args: [] } },
  ];

  test('finds a sender for each way in the settings and none for others', async () => {
    const senders = await openSenders({ recipients, settings: {}, secrets: {} });
    expect(senders.senderFor('siren', 'mqtt')).toBeDefined();
    expect(senders.senderFor('siren', 'command')).toBeUndefined();
    expect(senders.senderFor('nobody', 'mqtt')).toBeUndefined();
    senders.close();
  });

  test('a way that cannot work here says why and is given up', async () => {
    const senders = await openSenders({ recipients, settings: {}, secrets: {} });
    expect(await senders.senderFor('siren', 'mqtt')!(notice(), NOW_MS)).toEqual({
      sent: false,
      retryable: false,
      problem: 'Cannot send: there is no broker here.',
    });
    expect(await senders.senderFor('anna', 'mail:anna@farm.example')!(notice(), NOW_MS)).toMatchObject({
      problem: 'Cannot send: the settings have no smtp section.',
    });
    senders.close();
  });

  test('sendTest: each way is tried, and each result said in words', async () => {
    const reported: string[] = [];
    const publish = (_topic: string, payload: string): Promise<void> => {
      reported.push(payload);
      return Promise.resolve();
    };
    const senders = await openSenders({ recipients, settings: {}, secrets: {}, publish });
    const all = await Promise.all(recipients.map((recipient) => sendTest(recipient, senders, NOW_MS)));
    expect(all.flat()).toEqual([
      {
        channel: 'mail:anna@farm.example',
        sent: false,
        text: 'Cannot send: the settings have no smtp section.',
      },
      { channel: 'mqtt', sent: true, text: 'Sent by MQTT. Check that it has arrived.' },
      { channel: 'command', sent: true, text: 'Sent by command. Check that it has arrived.' },
      {
        channel: 'command',
        sent: false,
        text: 'Cannot run the command /nowhere/lamp: there is no such program. Give its full path in the settings.',
      },
    ]);
    expect(reported[0]).toContain('Stillwell test: no alarm');
    senders.close();
  });
});
