/** A row of the journal is the packs again, to the last bit. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { PlacedPack } from '../../../src/core/readings/placed-pack.ts';
import { decodeJournalRow, encodeJournalRow } from '../../../src/store/series/journal-codec.ts';
import type { PackColumn } from '../../../src/core/decode/messages.ts';

const NOON = Date.UTC(2026, 2, 2, 12);

const value = fc.oneof(
  fc.integer({ min: -20, max: 5000 }).map((n) => n / 100),
  fc.integer({ min: 0, max: 12_000 }).map((n) => n * 100),
  fc.double(),
  fc.float({ noNaN: true }),
  fc.constantFrom(0, -0, Number.NaN, 2 ** 53, 1e-9, Math.fround(7.91)),
);
const time = fc.oneof(
  fc.integer({ min: 0, max: 600 }).map((s) => NOON + s * 1000),
  fc.integer({ min: 0, max: 600_000 }).map((ms) => NOON + ms),
  fc.double({ noNaN: true }),
);

const column: fc.Arbitrary<PackColumn> = fc
  .record({
    channel: fc.constantFrom('current', 'p2/current', 'pressure', 'p15/contact', 'a channel to come'),
    readings: fc.array(fc.record({ time, value, fault: fc.constantFrom(0, 0, 0, 1, 2, 3) }), {
      maxLength: 30,
    }),
    faulty: fc.boolean(),
    strict: fc.boolean(),
  })
  .map(({ channel, readings, faulty, strict }) => {
    const faults = Uint8Array.from(readings, ({ fault }) => fault);
    return {
      channel,
      times: Float64Array.from(readings, (it) => it.time),
      // Without `strict` a fault may have a number, which no pack has: it must come back none the
      // less.
      values: Float64Array.from(readings, (it) =>
        faulty && strict && it.fault !== 0 ? Number.NaN : it.value,
      ),
      ...(faulty ? { faults } : {}),
    };
  });

const whole53 = fc.integer({ min: 0, max: 2 ** 53 - 1 });
const pack: fc.Arbitrary<PlacedPack> = fc
  .record(
    {
      node: fc.string(),
      kind: fc.constantFrom('readings' as const, 'start' as const),
      arrivalMs: fc.double({ noNaN: true }),
      columns: fc.array(column, { maxLength: 4 }),
      digest: fc.integer(),
      boot: whole53,
      seq: whole53,
      first: whole53,
      upMs: fc.double({ noNaN: true }),
      shiftMs: fc.double({ noNaN: true }),
      clockStep: fc.constant(true as const),
      timeUnknown: fc.constant(true as const),
    },
    { requiredKeys: ['node', 'kind', 'arrivalMs', 'columns', 'digest'] },
  )
  .map((made) => ({ ...made }));

test('packs come back as they were', () => {
  fc.assert(
    fc.property(fc.array(pack, { maxLength: 6 }), (packs) => {
      expect(decodeJournalRow(encodeJournalRow(packs))).toEqual(packs);
    }),
    { seed: 41, numRuns: 500 },
  );
});

test('columns with the same times hold them once', () => {
  const times = Float64Array.from({ length: 20 }, (_, i) => NOON + i * i * 37);
  const columnOf = (channel: string): PackColumn => ({ channel, times, values: new Float64Array(20) });
  const size = (columns: PackColumn[]): number =>
    encodeJournalRow([{ node: 'barn', kind: 'readings', arrivalMs: NOON, digest: 1, columns }]).length;
  const one = size([columnOf('current')]);
  const two = size([columnOf('current'), columnOf('pressure')]);
  expect(two - one).toBeLessThan(30);
});

test('a pack of twenty readings takes under 80 bytes', () => {
  const times = Float64Array.from({ length: 10 }, (_, i) => NOON + i * 1000);
  const current = { channel: 'current', times, values: times.map((_, i) => (791 + (i % 3)) / 100) };
  const pressure = { channel: 'pressure', times, values: times.map((_, i) => 312_400 + i * 700) };
  const row = encodeJournalRow([
    {
      node: 'barn-north',
      kind: 'readings',
      boot: 17,
      seq: 4711,
      arrivalMs: NOON,
      digest: 99,
      columns: [current, pressure],
    },
  ]);
  expect(row.length).toBeLessThan(80);
});

test.each([
  ['no bytes', (row: Buffer) => row.subarray(0, 0)],
  ['another version', (row: Buffer) => Buffer.concat([Buffer.of(9), row.subarray(1)])],
  ['a cut end', (row: Buffer) => row.subarray(0, row.length - 1)],
  ['one bit', (row: Buffer) => Buffer.from(row.map((byte, i) => (i === 30 ? byte ^ 4 : byte)))],
])('%s is refused', (_, spoil) => {
  const times = Float64Array.of(NOON, NOON + 1000);
  const row = encodeJournalRow([
    {
      node: 'barn',
      kind: 'readings',
      arrivalMs: NOON,
      digest: 1,
      columns: [{ channel: 'current', times, values: Float64Array.of(1.5, 2.5) }],
    },
  ]);
  expect(() => decodeJournalRow(spoil(row))).toThrow(/Cannot read journal row/);
});
