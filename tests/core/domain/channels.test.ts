import { expect, test } from 'vitest';
import {
  BASE_CHANNELS,
  baseOf,
  channelCode,
  channelName,
  channelUnit,
  codeOf,
  isCurrent,
  isStartCode,
  lineOf,
  MAX_PUMPS,
  pumpOf,
  startCodeOf,
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
  ['current', { pump: 0, base: 'current', current: true, line: 0 }],
  ['current-3', { pump: 0, base: 'current-3', current: true, line: 2 }],
  ['p2/pressure', { pump: 1, base: 'pressure', current: false }],
  ['voltage', { pump: 0, base: 'voltage', current: false, line: 0 }],
  ['p15/voltage-3', { pump: 14, base: 'voltage-3', current: false, line: 2 }],
  ['p2/temperature', { pump: 1, base: 'temperature', current: false }],
] as const)('the parts of %s', (name, parts) => {
  const code = codeOf(parts.base, parts.pump);
  expect(code).toBe(channelCode(name));
  expect([pumpOf(code), baseOf(code), isCurrent(code)]).toEqual([parts.pump, parts.base, parts.current]);
  if ('line' in parts) expect(lineOf(code)).toBe(parts.line);
  expect(isStartCode(code)).toBe(false);
});

test('the current of a start belongs to its pump and to no channel', () => {
  const code = startCodeOf(codeOf('current-2', 3));
  expect([isStartCode(code), pumpOf(code), baseOf(code), isCurrent(code)]).toEqual([
    true,
    3,
    undefined,
    false,
  ]);
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
