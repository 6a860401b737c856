import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findOversizedPacket, newFrameMeter } from '../../src/mqtt/frame-meter.ts';

// Remaining length encoding: MQTT 3.1.1, section 2.2.3, table 2.4 (127 = 7f, 128 = 80 01, 16,384 =
// 80 80 01, 2,097,152 = 80 80 80 01).
describe('meterFrames', () => {
  test.each([
    ['a ping', 'c000', 0],
    ['a length of 127', '307f', 0],
    ['a length of 128 over a limit of 127', '308001', 128],
    ['a length of 16,384', '30808001', 16_384],
    ['a length of 2,097,152', '3080808001', 2_097_152],
    ['a length of five bytes', '30ffffffff01', Number.POSITIVE_INFINITY],
    ['nothing yet', '30', 0],
  ])('%s', (_name, hex, found) => {
    expect(findOversizedPacket(newFrameMeter(), Buffer.from(hex, 'hex'), 127)).toBe(found);
  });

  test('finds the one large packet wherever the stream is cut', () => {
    const packet = (length: number): Buffer => {
      const size: number[] = [];
      for (let rest = length; ; rest >>= 7) {
        size.push(rest > 127 ? (rest & 127) | 128 : rest);
        if (rest <= 127) break;
      }
      return Buffer.concat([Buffer.from([0x30, ...size]), Buffer.alloc(length, 0xff)]);
    };
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 300 }), { maxLength: 8 }),
        fc.option(fc.integer({ min: 301, max: 70_000 }), { nil: undefined }),
        fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1 }),
        (small, large, cuts) => {
          const stream = Buffer.concat([...small, ...(large === undefined ? [] : [large])].map(packet));
          const meter = newFrameMeter();
          let found = 0;
          for (let at = 0, cut = 0; at < stream.length && found === 0; cut += 1) {
            const step = cuts[cut % cuts.length]!;
            found = findOversizedPacket(meter, stream.subarray(at, at + step), 300);
            at += step;
          }
          expect(found).toBe(large ?? 0);
        },
      ),
      { seed: 20_260_301, numRuns: 300 },
    );
  });
});
