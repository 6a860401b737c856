import { expect, test } from 'vitest';
import {
  BASE_CHANNELS,
  MAX_PUMPS,
  channelCode,
  channelName,
  channelUnit,
} from '../../../src/core/domain/channels.ts';

test('every channel of every pump has its own code, and the code its name', () => {
  const codes = new Set<number>();
  for (let pump = 1; pump <= MAX_PUMPS; pump += 1) {
    for (const base of BASE_CHANNELS) {
      const name = pump === 1 ? base : `p${pump}/${base}`;
      const code = channelCode(name);
      expect(code).toBeLessThan(256);
      expect(code === undefined ? '' : channelName(code)).toBe(name);
      codes.add(code ?? -1);
    }
  }
  expect(codes.size).toBe(MAX_PUMPS * BASE_CHANNELS.length);
});

test.each([
  'p1/current',
  'p16/current',
  'p0/current',
  'p2',
  'p2/',
  '/current',
  'amps',
  '',
  'current-4',
  'p2/p3/current',
])('%j is no channel', (name) => {
  expect(channelCode(name)).toBeUndefined();
  expect(channelUnit(name)).toBeUndefined();
});

test.each([
  ['current-3', 'A'],
  ['p2/current', 'A'],
  ['pressure', 'Pa'],
  ['flow', 'm3/s'],
  ['contact', ''],
  ['temperature', 'Cel'],
])('%s is in %j', (name, unit) => {
  expect(channelUnit(name)).toBe(unit);
});

test('a code without a channel has no name', () => {
  expect(() => channelName(15)).toThrow('Cannot name channel: no channel has code 15');
});
