/**
 * What the golden packs don't show of reading a pack: the digest, the limit of a list of names,
 * rounding.
 */
import { refusalText } from '../../../../src/core/decode/refusal-text.ts';
import { describe, expect, test } from 'vitest';
import { digestOf } from '../../../../src/core/decode/senml/digest.ts';
import type { Pack } from '../../../../src/core/decode/messages.ts';
import { readPack } from '../../../../src/core/decode/formats.ts';
import { isRefusal } from '../../../../src/core/decode/refuse.ts';

const bytes = (records: unknown): Uint8Array => new TextEncoder().encode(JSON.stringify(records));

function read(records: unknown): Pack {
  const pack = readPack({ node: 'barn-north', kind: 'readings', bytes: bytes(records) });
  if (isRefusal(pack)) throw new Error(refusalText(pack));
  return pack;
}

const CURRENT = { bn: 'barn-north:', bt: 1795600000, n: 'current', v: 7.9 };

describe('readPack', () => {
  test('the digest is of the bytes, by either way of reading', () => {
    const usual = [CURRENT];
    const unusual = [{ ...CURRENT, lot: 'b7' }];
    expect(read(usual).digest).toBe(digestOf(bytes(usual)));
    expect(read(unusual).digest).toBe(digestOf(bytes(unusual)));
  });

  test.each([
    [0.0004, 1795600000000],
    [0.0005, 1795600000001],
    [1e-9, 1795600000000],
    [-0.0006, 1795599999999],
  ])('t %s s comes to whole ms', (t, timeMs) => {
    expect(read([{ ...CURRENT, t }]).columns[0]!.times).toEqual(Float64Array.of(timeMs));
  });

  test('zero has no sign, in times and values', () => {
    const [column] = read([
      { bn: 'barn-north:', n: 'current', t: -0, v: -0 },
      { n: 'current', t: -0.0001, v: 0 },
    ]).columns;
    expect([...column!.times, ...column!.values].every((n) => Object.is(n, 0))).toBe(true);
  });

  test('a skipped name is cut to a bounded length', () => {
    const skipped = read([CURRENT, { n: 'x'.repeat(5000), v: 1 }]).skipped;
    expect(skipped).toEqual([{ channel: 'x'.repeat(80), count: 1 }]);
  });
});
