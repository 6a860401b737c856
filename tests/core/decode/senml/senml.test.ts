/**
 * The examples of RFC 8428 (August 2018), through the layer that knows nothing of our contract.
 * JSON: sections 5.1.1 to 5.1.4; CBOR: the bytes of section 6, as in the core-wg senml-spec
 * repository's ex3.gen.cbor.txt; resolved times and values worked out by hand.
 */
import { refusalText } from '../../../../src/core/decode/refusal-text.ts';
import { describe, expect, test } from 'vitest';
import { readCbor } from '../../../../src/core/decode/senml-cbor/cbor-bytes.ts';
import { isRefusal } from '../../../../src/core/decode/refuse.ts';
import { resolveSenml } from '../../../../src/core/decode/senml/senml.ts';
import type { ResolvedRecord } from '../../../../src/core/decode/senml/senml.ts';

function resolved(records: readonly unknown[]): ResolvedRecord[] {
  const all = resolveSenml(records);
  if (isRefusal(all)) throw new Error(refusalText(all));
  return all;
}

const DEVICE = 'urn:dev:ow:10e2073a0108006';

const VOLTAGE_AND_CURRENT = [
  { bn: `${DEVICE}:`, bt: 1.276020076001e9, bu: 'A', bver: 5, n: 'voltage', u: 'V', v: 120.1 },
  { n: 'current', t: -5, v: 1.2 },
  { n: 'current', t: -4, v: 1.3 },
  { n: 'current', t: -3, v: 1.4 },
  { n: 'current', t: -2, v: 1.5 },
  { n: 'current', t: -1, v: 1.6 },
  { n: 'current', v: 1.7 },
];

const VOLTAGE_AND_CURRENT_RESOLVED = [
  { name: `${DEVICE}:voltage`, unit: 'V', timeS: 1276020076.001, v: 120.1 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020071.001, v: 1.2 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020072.001, v: 1.3 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020073.001, v: 1.4 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020074.001, v: 1.5 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020075.001, v: 1.6 },
  { name: `${DEVICE}:current`, unit: 'A', timeS: 1276020076.001, v: 1.7 },
];

const SECTION_6_CBOR =
  '87a721781b75726e3a6465763a6f773a3130653230373361303130383030363a22fb41d303a15b001062' +
  '23614120050067766f6c7461676501615602fb405e066666666666' +
  'a3006763757272656e74062402fb3ff3333333333333a3006763757272656e74062302fb3ff4cccccccccccd' +
  'a3006763757272656e74062202fb3ff6666666666666a3006763757272656e74062102f93e00' +
  'a3006763757272656e74062002fb3ff999999999999aa3006763757272656e74060002fb3ffb333333333333';

describe('resolveSenml', () => {
  test('RFC 8428, 5.1.1: one reading', () => {
    const one = [{ n: 'urn:dev:ow:10e2073a01080063', u: 'Cel', v: 23.1 }];
    expect(resolved(one)).toEqual([{ name: 'urn:dev:ow:10e2073a01080063', unit: 'Cel', timeS: 0, v: 23.1 }]);
  });

  test('RFC 8428, 5.1.2: several readings under base values', () => {
    expect(resolved(VOLTAGE_AND_CURRENT)).toEqual(VOLTAGE_AND_CURRENT_RESOLVED);
  });

  test('RFC 8428, section 6: the same pack in CBOR, 195 bytes', () => {
    const bytes = Uint8Array.from(Buffer.from(SECTION_6_CBOR, 'hex'));
    expect(bytes.length).toBe(195);
    const read = readCbor(bytes);
    if (isRefusal(read) || !Array.isArray(read.value)) throw new Error('the bytes were not read');
    expect(resolved(read.value)).toEqual(VOLTAGE_AND_CURRENT_RESOLVED);
  });

  test('RFC 8428, 5.1.3 and 5.1.4: places, and units that change within a pack', () => {
    const records = [
      { bn: 'urn:dev:ow:10e2073a01080063', bt: 1.320067464e9, bu: '%RH', v: 20 },
      { u: 'lon', v: 24.30621 },
      { u: 'lat', v: 60.07965 },
      { t: 60, v: 20.3 },
      { u: 'lon', t: 60, v: 24.30622 },
      { u: 'lat', t: 60, v: 60.07965 },
      { t: 120, v: 20.7 },
      { u: 'lon', t: 120, v: 24.30623 },
      { u: 'lat', t: 120, v: 60.07966 },
      { u: '%EL', t: 150, v: 98 },
      { t: 180, v: 21.2 },
      { u: 'lon', t: 180, v: 24.30628 },
      { u: 'lat', t: 180, v: 60.07967 },
    ];
    const table = resolved(records).map(({ timeS, unit, v }) => `${timeS} ${unit} ${v}`);
    expect(table).toEqual([
      '1320067464 %RH 20',
      '1320067464 lon 24.30621',
      '1320067464 lat 60.07965',
      '1320067524 %RH 20.3',
      '1320067524 lon 24.30622',
      '1320067524 lat 60.07965',
      '1320067584 %RH 20.7',
      '1320067584 lon 24.30623',
      '1320067584 lat 60.07966',
      '1320067614 %EL 98',
      '1320067644 %RH 21.2',
      '1320067644 lon 24.30628',
      '1320067644 lat 60.07967',
    ]);
    expect(new Set(resolved(records).map(({ name }) => name))).toEqual(
      new Set(['urn:dev:ow:10e2073a01080063']),
    );
  });

  test('a sum stands beside a value or alone, with its base', () => {
    const [both, alone] = resolved([
      { n: 'a', v: 1, s: 5, bs: 100 },
      { n: 'b', s: 7 },
    ]);
    expect(both).toEqual({ name: 'a', timeS: 0, v: 1, s: 105 });
    expect(alone).toEqual({ name: 'b', timeS: 0, s: 107 });
  });

  test.each([
    ['RFC 8428, 4.5.1: a name starts with a letter or digit', [{ n: '_urn:dev', v: 1 }], 'bad-name'],
    ['a base value that is text', [{ n: 'a', bv: '1', v: 1 }], 'not-a-number'],
    ['a base sum that is text', [{ n: 'a', bs: '1', v: 1 }], 'not-a-number'],
    ['a sum that is text', [{ n: 'a', s: '1' }], 'not-a-number'],
    ['base and value that add up to no double', [{ n: 'a', bv: 1.7e308, v: 1.7e308 }], 'not-a-number'],
    ['base time and time that add up to no double', [{ n: 'a', bt: 1.7e308, t: 1.7e308, v: 1 }], 'bad-time'],
    ['a base unit that is no text', [{ n: 'a', bu: 1, v: 1 }], 'wrong-unit'],
    ['a version of zero', [{ n: 'a', bver: 0, v: 1 }], 'unknown-version'],
    ['a list for a record', [[]], 'not-a-pack'],
  ])('refuses %s', (_, records, refused) => {
    expect(resolveSenml(records)).toMatchObject({ refused });
  });
});
