import { describe, expect, test } from 'vitest';
import { parseAsk, parseAck, formatAsk, formatAck } from '../../../src/core/decode/server-messages.ts';
import type { Ask, Ack } from '../../../src/core/decode/server-messages.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('kept', () => {
  test.each<[string, Ack]>([
    [
      '{"boot":17,"seq":4711,"also":[[4720,4731]],"others":[{"boot":16,"seq":4400}]}',
      { boot: 17, seq: 4711, also: [[4720, 4731]], others: [{ boot: 16, seq: 4400 }] },
    ],
    ['{"boot":2721712514075610,"seq":0}', { boot: 2721712514075610, seq: 0 }],
    ['{"wait":true}', { wait: true }],
  ])('%s is printed and read back', (text, kept) => {
    expect(formatAck(kept)).toBe(text);
    expect(parseAck(bytes(text))).toEqual(kept);
  });

  test('printKept: empty lists are left out', () => {
    expect(formatAck({ boot: 1, seq: 2, also: [], others: [] })).toBe('{"boot":1,"seq":2}');
  });

  test.each([
    '',
    '[]',
    '{"boot":0,"seq":1}',
    '{"boot":1}',
    '{"boot":1,"seq":-1}',
    '{"wait":false}',
    '{"boot":1,"seq":1,"also":[[1]]}',
  ])('parseKept: %s is none', (text) => {
    expect(parseAck(bytes(text))).toBeUndefined();
  });
});

describe('ask', () => {
  test.each<[string, Ask]>([
    ['{"resend":{"boot":17,"from":4700,"to":4711}}', { resend: { boot: 17, from: 4700, to: 4711 } }],
    ['{"every":1,"forS":600}', { every: 1, forS: 600 }],
  ])('%s is printed and read back', (text, ask) => {
    expect(formatAsk(ask)).toBe(text);
    expect(parseAsk(bytes(text))).toEqual(ask);
  });

  test.each(['', '{}', '{"every":0,"forS":600}', '{"resend":{"boot":17}}'])(
    'parseAsk: %s is none',
    (text) => {
      expect(parseAsk(bytes(text))).toBeUndefined();
    },
  );
});
