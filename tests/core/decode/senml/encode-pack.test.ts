import { refusalText } from '../../../../src/core/decode/refusal-text.ts';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { encodePackCbor } from '../../../../src/core/decode/senml-cbor/encode-pack.ts';
import { encodePackJson } from '../../../../src/core/decode/senml-json/encode-pack.ts';
import type { PackToSend } from '../../../../src/core/decode/senml/pack-records.ts';
import { readPack } from '../../../../src/core/decode/formats.ts';
import { isRefusal } from '../../../../src/core/decode/refuse.ts';
import { anyPack, byName } from '../pack-arbitrary.ts';

function readBack(bytes: Uint8Array): PackToSend {
  const read = readPack({ node: 'barn-north', kind: 'readings', bytes });
  if (isRefusal(read)) throw new Error(refusalText(read));
  const { kind: _kind, digest: _digest, ...pack } = read;
  return byName(pack);
}

test.each([
  ['encodePackJson', encodePackJson],
  ['encodePackCbor', encodePackCbor],
])('%s: what is read back is what was put in', (_, encode) => {
  fc.assert(
    fc.property(anyPack, (pack) => {
      expect(readBack(encode(pack))).toEqual(byName(pack));
    }),
    { numRuns: 500, seed: 8428 },
  );
});

const EXAMPLE: PackToSend = {
  node: 'barn-north',
  clock: 'utc',
  boot: 17,
  seq: 4711,
  first: 4702,
  columns: [
    {
      channel: 'current',
      times: Float64Array.of(1795600000000, 1795600001000),
      values: Float64Array.of(7.91, 7.9),
    },
    {
      channel: 'pressure',
      times: Float64Array.of(1795600000000, 1795600001000),
      values: Float64Array.of(312400, 313100),
    },
  ],
};

test("encodePackJson: the contract's own example, letter for letter", () => {
  expect(new TextDecoder().decode(encodePackJson(EXAMPLE))).toBe(
    '[{"bn":"barn-north:","bt":1795600000,"boot":17,"seq":4711,"first":4702,"n":"current","u":"A","v":7.91},' +
      '{"n":"pressure","u":"Pa","v":312400},' +
      '{"n":"current","u":"A","t":1,"v":7.9},' +
      '{"n":"pressure","u":"Pa","t":1,"v":313100}]',
  );
});

test("encodePackCbor: takes two thirds of JSON's bytes at most", () => {
  expect(encodePackCbor(EXAMPLE).length).toBeLessThan((2 / 3) * encodePackJson(EXAMPLE).length);
});

test('encodePackJson: refuses a channel that the contract does not know', () => {
  const columns = [{ channel: 'humidity', times: Float64Array.of(0), values: Float64Array.of(1) }];
  expect(() => encodePackJson({ node: 'barn-north', clock: 'arrival', columns })).toThrow(
    /^Cannot encode pack: /,
  );
});
