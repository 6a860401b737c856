import { expect, test } from 'vitest';
import { channelFromBytes, isUnitBytes } from '../../../../src/core/decode/senml/channel-bytes.ts';
import {
  BASE_CHANNELS,
  CHANNEL_UNITS,
  MAX_PUMPS,
  channelCode,
  channelName,
} from '../../../../src/core/domain/channels.ts';
import { NOT_FOUND } from '../../../../src/core/decode/json/json-scan.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const codeOf = (text: string): number => channelFromBytes(bytes(text), 0, text.length);

test('channelOfWord: agrees with channelCode on every channel of every pump', () => {
  for (let pump = 0; pump < MAX_PUMPS; pump++) {
    for (let base = 0; base < BASE_CHANNELS.length; base++) {
      const name = channelName(pump * 17 + base);
      expect(codeOf(name)).toBe(channelCode(name));
    }
  }
});

test.each([
  '',
  'curren',
  'currents',
  'p1/current',
  'p16/current',
  'p2/',
  'p2/humidity',
  'Current',
  'p02/current',
])('channelOfWord: %s is none', (name) => {
  expect(codeOf(name)).toBe(NOT_FOUND);
  expect(channelCode(name)).toBeUndefined();
});

test('isUnitWord: the unit of the channel and no other', () => {
  for (const [base, name] of BASE_CHANNELS.entries()) {
    const unit = bytes(CHANNEL_UNITS[name]);
    expect(isUnitBytes(unit, 0, unit.length, 17 + base)).toBe(true);
    expect(isUnitBytes(bytes('psi'), 0, 3, base)).toBe(false);
  }
});
