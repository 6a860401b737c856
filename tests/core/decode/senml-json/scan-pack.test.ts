/**
 * The short way of reading a pack may give up, but may never read anything else than the long way
 * does: shown on packs of every kind, written in every manner, whole and spoilt.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { encodePackJson } from '../../../../src/core/decode/senml-json/encode-pack.ts';
import type { Pack } from '../../../../src/core/decode/messages.ts';
import { parsePackGeneric } from '../../../../src/core/decode/senml-json/format.ts';
import type { PackSource } from '../../../../src/core/decode/wire-format.ts';
import { scanPack } from '../../../../src/core/decode/senml-json/scan-pack.ts';
import { goldenIndex, goldenMessage } from '../../../contract/golden.ts';
import { anyPack } from '../pack-arbitrary.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const from = (text: string, kind: Pack['kind'] = 'readings'): PackSource => ({
  node: 'barn-north',
  kind,
  bytes: bytes(text),
});

/** True where the short way read it; throws where the two ways differ. */
function agrees(source: PackSource): boolean {
  const short = scanPack(source);
  if (short !== undefined) expect(short).toEqual(parsePackGeneric(source));
  return short !== undefined;
}

/** The same pack, its numbers and its punctuation written another way. */
function rewritten(
  json: Uint8Array,
  manner: { indent: number; reverse: boolean; exponent: boolean },
): string {
  const records = z
    .array(z.record(z.string(), z.unknown()))
    .parse(JSON.parse(new TextDecoder().decode(json)));
  const turned = records.map((one) =>
    manner.reverse ? Object.fromEntries(Object.entries(one).reverse()) : one,
  );
  const text = JSON.stringify(turned, null, manner.indent);
  return manner.exponent ? text.replace(/"v":\s*(-?[0-9.]+)(?=[,}\s])/, '"v":$1e0') : text;
}

describe('scanPack', () => {
  test('reads every usual pack of a node, equal to the long way', () => {
    const seen = { short: 0, all: 0 };
    fc.assert(
      fc.property(anyPack, (pack) => {
        seen.all++;
        if (agrees({ node: 'barn-north', kind: 'readings', bytes: encodePackJson(pack) })) seen.short++;
      }),
      { numRuns: 1000, seed: 575 },
    );
    // Values drawn as any double have 17 digits and are left to JSON.parse; at least a part of the
    // packs has none such.
    expect(seen.short).toBeGreaterThan(seen.all / 20);
  });

  test('written with white space, keys turned round or exponents: equal, or left to the long way', () => {
    const manner = fc.record({
      indent: fc.constantFrom(0, 1, 4),
      reverse: fc.boolean(),
      exponent: fc.boolean(),
    });
    fc.assert(
      fc.property(anyPack, manner, (pack, how) => {
        agrees(from(rewritten(encodePackJson(pack), how)));
      }),
      { numRuns: 500, seed: 576 },
    );
  });

  test('with bytes changed, left out or doubled: equal, or left to the long way', () => {
    const change = fc.record({
      at: fc.nat(5000),
      byte: fc.constantFrom(...bytes('0123456789.-+eE,:"{}[] tnuvsbtrfal\\\n')),
      how: fc.nat(2),
    });
    const steady = encodePackJson({
      node: 'barn-north',
      clock: 'utc',
      boot: 17,
      seq: 3,
      first: 1,
      columns: ['current', 'pressure'].map((channel, at) => ({
        channel,
        times: Float64Array.from({ length: 10 }, (_, i) => 1795600000000 + 1000 * i),
        values: Float64Array.from({ length: 10 }, (_, i) => (at === 0 ? 7.5 + i / 100 : 300000 + 100 * i)),
      })),
    });
    expect(agrees({ node: 'barn-north', kind: 'readings', bytes: steady })).toBe(true);
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const list = [...steady];
        for (const { at, byte, how } of changes) {
          const place = at % list.length;
          if (how === 0) list[place] = byte;
          else list.splice(place, how === 1 ? 1 : 0, ...(how === 1 ? [] : [byte]));
        }
        agrees({ node: 'barn-north', kind: 'readings', bytes: Uint8Array.from(list) });
      }),
      { numRuns: 8000, seed: 577 },
    );
  });

  test.each(
    goldenIndex.accepted.filter(({ topic, file }) => /readings|start/.test(topic) && file.endsWith('.json')),
  )('$file: equal, or left to the long way', (entry) => {
    agrees({
      node: 'barn-north',
      kind: entry.topic.endsWith('start') ? 'start' : 'readings',
      bytes: goldenMessage(entry).payload,
    });
  });

  /**
   * Packs whose bytes are at fault: not those that are sound and came on a wrong topic, retained,
   * or under a wrong content type.
   */
  const spoilt = goldenIndex.refused.filter(
    ({ topic, reason, contentType }) =>
      /\/(readings|start)$/.test(topic) &&
      !['retained', 'unknown-topic'].includes(reason) &&
      contentType === undefined,
  );

  test.each(spoilt)('$file: is left to the long way', (entry) => {
    const kind = entry.topic.endsWith('start') ? 'start' : 'readings';
    expect(scanPack({ node: 'barn-north', kind, bytes: goldenMessage(entry).payload })).toBeUndefined();
  });

  test.each([
    ['example', true],
    ['twenty-readings', true],
    ['by-exception', true],
    ['three-phase', true],
    ['all-else', true],
    ['several-pumps', true],
    ['faults', true],
    ['no-clock', true],
    ['start', true],
    ['white-space', false],
    ['base-values', false],
    ['fractions', false],
    ['unknown-channel-beside', false],
  ])('%s: by the short way: %s', (name, short) => {
    const entry = goldenIndex.accepted.find(({ file }) => file === `accepted/${name}.json`)!;
    const kind = entry.topic.endsWith('start') ? 'start' : 'readings';
    expect(agrees({ node: 'barn-north', kind, bytes: goldenMessage(entry).payload })).toBe(short);
  });

  test('a mould holds for what it was made of alone: other channels, units, keys and shapes in turn', () => {
    const record = fc.constantFrom(
      '{"n":"current","u":"A","t":1,"v":7.9}',
      '{"n":"current","u":"A","t":12,"v":7.91}',
      '{"n":"current","u":"A","t":2,"v":70000}',
      '{"n":"current","u":"V","t":1,"v":7.9}',
      '{"n":"current","t":1,"v":7.9}',
      '{"n":"current","v":7.9,"t":3}',
      '{"n":"current","u":"A","v":7.9}',
      '{"n":"current","u":"A","t":1,"vs":"bad"}',
      '{"n":"current","u":"A","t":1,"v":7.9,"x":1}',
      '{"n":"pressure","u":"Pa","t":1,"v":312400}',
      '{"n":"contact","t":1,"vb":true}',
      '{"n":"current","u":"A","t":4,"v":-}',
      '{"n":"current","u":"A","t":4-,"v":5}',
      '{"n":"current","u":"A","t":-1795599999,"v":5}',
    );
    fc.assert(
      fc.property(fc.array(record, { minLength: 1, maxLength: 12 }), (records) => {
        agrees(from(`[{"bn":"barn-north:","bt":1795600000,"n":"level","v":1},${records.join(',')}]`));
      }),
      { numRuns: 5000, seed: 578 },
    );
  });
});
