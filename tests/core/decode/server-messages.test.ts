import { describe, expect, test } from 'vitest';
import { ackShape } from '../../../src/core/decode/shapes.ts';
import { formatAck, type Ack } from '../../../src/core/decode/server-messages.ts';

describe('kept', () => {
  test.each<[string, Ack]>([
    [
      '{"boot":17,"seq":4711,"also":[[4720,4731]],"others":[{"boot":16,"seq":4400}]}',
      { boot: 17, seq: 4711, also: [[4720, 4731]], others: [{ boot: 16, seq: 4400 }] },
    ],
    ['{"boot":2721712514075610,"seq":0}', { boot: 2721712514075610, seq: 0 }],
    ['{"wait":true}', { wait: true }],
  ])('%s is what is printed, and fits the schema', (text, kept) => {
    expect(formatAck(kept)).toBe(text);
    expect(ackShape.parse(JSON.parse(text))).toEqual(kept);
  });

  test('formatAck: empty lists are left out', () => {
    expect(formatAck({ boot: 1, seq: 2, also: [], others: [] })).toBe('{"boot":1,"seq":2}');
  });
});
