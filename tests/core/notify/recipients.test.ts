import { expect, test } from 'vitest';
import { noticeChannelsOf } from '../../../src/core/notify/recipients.ts';
import { testNotice } from '../../../src/core/notify/test-notice.ts';

test('waysOf: one way for each address, hook, topic and command', () => {
  expect(
    noticeChannelsOf({
      name: 'all',
      priorities: ['now'],
      mail: { to: ['a@farm.example', 'b@farm.example'] },
      webhook: { url: 'https://hook.example' },
      mqtt: { topic: 'farm/siren' },
      command: { program: '/opt/lamp', args: [] },
    }),
  ).toEqual(['mail:a@farm.example', 'mail:b@farm.example', 'webhook', 'mqtt', 'command']);
  expect(noticeChannelsOf({ name: 'none', priorities: ['now'] })).toEqual([]);
});

test('testNotice: says that it is a test, and is a new one each time', () => {
  const [first, second] = [testNotice('anna', 'webhook', 1), testNotice('anna', 'webhook', 2)];
  expect(first.id).not.toBe(second.id);
  expect(first).toMatchObject({
    what: 'test',
    to: 'anna',
    body: { subject: 'Stillwell test: no alarm', channel: 'webhook' },
  });
  expect(first.body.text).toContain('This is a test. No well is in trouble.');
});
