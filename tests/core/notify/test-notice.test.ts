import { expect, test } from 'vitest';
import { testNotice } from '../../../src/core/notify/test-notice.ts';

test('testNotice: says that it is a test, and is a new one each time', () => {
  const [first, second] = [testNotice('anna', 'webhook', 1), testNotice('anna', 'webhook', 2)];
  expect(first.id).not.toBe(second.id);
  expect(first).toMatchObject({
    what: 'test',
    to: 'anna',
    body: { subject: 'Stillwell test: no alarm', channel: 'webhook' },
  });
  expect(first.body.text).toContain('This is a test. No well has an alarm.');
});
