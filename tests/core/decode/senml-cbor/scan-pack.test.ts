/**
 * The short way of reading a CBOR pack may give up, but may never read anything else than the long
 * way does: shown on packs of every kind, whole and spoilt.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodePackCbor } from '../../../../src/core/decode/senml-cbor/encode-pack.ts';
import { parsePackGeneric } from '../../../../src/core/decode/senml-cbor/format.ts';
import { scanPack } from '../../../../src/core/decode/senml-cbor/scan-pack.ts';
import type { PackSource } from '../../../../src/core/decode/wire-format.ts';
import { anyPack } from '../pack-arbitrary.ts';

const NODE = 'barn-north';
const sourceOf = (bytes: Uint8Array): PackSource => ({ node: NODE, kind: 'readings', bytes });
const hex = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text.replaceAll(' ', ''), 'hex'));

/** True where the short way read it; throws where the two ways differ. */
function agrees(source: PackSource): boolean {
  const short = scanPack(source);
  if (short !== undefined) expect(short).toEqual(parsePackGeneric(source));
  return short !== undefined;
}

const STEADY = encodePackCbor({
  node: NODE,
  clock: 'utc',
  boot: 3,
  seq: 41,
  first: 7,
  columns: [
    {
      channel: 'current',
      times: Float64Array.of(1_780_000_000_000, 1_780_000_001_000),
      values: Float64Array.of(7.93, 0),
    },
    { channel: 'pressure', times: Float64Array.of(1_780_000_000_500), values: Float64Array.of(310_000) },
    { channel: 'contact', times: Float64Array.of(1_780_000_000_500), values: Float64Array.of(1) },
  ],
});

/** bn "barn-north:", and n "current". */
const BN = '21 6b 6261726e2d6e6f7274683a';
const CURRENT = '00 67 63757272656e74';

describe('scanPack', () => {
  test('reads every pack of a node, equal to the long way', () => {
    fc.assert(
      fc.property(anyPack, (pack) => {
        expect(agrees(sourceOf(encodePackCbor(pack)))).toBe(true);
      }),
      { numRuns: 1000, seed: 577 },
    );
  });

  test('with bytes changed, left out or doubled: equal, or left to the long way', () => {
    const change = fc.record({ at: fc.nat(STEADY.length - 1), byte: fc.nat(255), how: fc.nat(2) });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const bytes = [...STEADY];
        for (const { at, byte, how } of changes) {
          if (how === 0) bytes[at] = byte;
          else bytes.splice(at, how === 1 ? 1 : 0, ...(how === 1 ? [] : [byte]));
        }
        agrees(sourceOf(Uint8Array.from(bytes)));
      }),
      { numRuns: 3000, seed: 578 },
    );
  });

  test.each([
    ['labels as numbers', `81 a4 ${BN} 22 1a 6a1a0000 ${CURRENT} 02 07`],
    ['a base time in double', `81 a4 ${BN} 22 fb 41da868000000000 ${CURRENT} 02 07`],
    ['a unit of its own channel', `81 a4 ${BN} ${CURRENT} 01 61 41 02 07`],
    ['a fault', `81 a3 ${BN} ${CURRENT} 03 63 6c6f77`],
    ['a short t in half', `81 a4 ${BN} ${CURRENT} 06 f9 bc00 02 07`],
  ])('reads %s', (_, text) => {
    expect(agrees(sourceOf(hex(text)))).toBe(true);
  });

  test.each([
    ['no record', '80'],
    ['a list of a length that is not said', `9f a3 ${BN} ${CURRENT} 02 07 ff`],
    ['a base time in single', `81 a4 ${BN} 22 fa 4ed43400 ${CURRENT} 02 07`],
    ['a Unix time in single in t', `81 a4 ${BN} ${CURRENT} 06 fa 4ed43400 02 07`],
    ['a key twice', `81 a4 ${BN} ${CURRENT} 02 07 02 08`],
    ['a key that is not ours', `81 a4 ${BN} ${CURRENT} 02 07 07 05`],
    ['text labels', `81 a3 ${BN} 61 6e 67 63757272656e74 02 07`],
    ['a number as a name', `81 a3 ${BN} 00 05 02 07`],
    ['another node', `81 a3 21 66 6f746865723a ${CURRENT} 02 07`],
    ['a unit of another channel', `81 a4 ${BN} ${CURRENT} 01 62 5061 02 07`],
    ['NaN', `81 a3 ${BN} ${CURRENT} 02 f9 7e00`],
    ['something behind it', `81 a3 ${BN} ${CURRENT} 02 07 00`],
    ['a record that is cut short', `81 a3 ${BN} ${CURRENT} 02`],
    ['a list that promises more', `82 a3 ${BN} ${CURRENT} 02 07`],
  ])('leaves %s to the long way', (_, text) => {
    expect(scanPack(sourceOf(hex(text)))).toBeUndefined();
  });
});
