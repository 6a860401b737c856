import { expect, test } from 'vitest';
import { encodeHello, readHello } from '../../../src/core/decode/hello.ts';
import type { Hello } from '../../../src/core/decode/messages.ts';

const HELLO: Hello = {
  node: 'barn-north',
  contract: 1,
  firmware: 'tarn-clamp 0.3.1',
  built: '2026-08-01',
  boot: 17,
  upMs: 12_500,
  clock: 'none',
  holdsS: 86_400,
  fedFrom: 'battery',
  held: [{ boot: 16, from: 120, to: 4400 }],
  speaksFor: ['pump-house'],
  channels: [
    { n: 'current', u: 'A', every: 1, over: 0.2, is: 'mean', step: 0.01, max: 60 },
    { n: 'contact', u: '' },
  ],
};

test('readHello: gives back what encodeHello wrote', () => {
  expect(readHello('barn-north', encodeHello(HELLO))).toEqual(HELLO);
  const least: Hello = { node: 'barn-north', contract: 1, channels: [] };
  expect(readHello('barn-north', encodeHello(least))).toEqual(least);
});

test('readHello: the reason names the field', () => {
  const bytes = new TextEncoder().encode('{"contract":1,"channels":[{"n":"current","u":"A","every":-1}]}');
  expect(readHello('barn-north', bytes)).toMatchObject({
    refused: 'bad-hello',
    why: { reason: 'hello-field', figures: { path: 'channels.0.every' } },
  });
});
