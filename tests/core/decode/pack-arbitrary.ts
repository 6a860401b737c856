/**
 * Packs as nodes might send them, drawn at random: every channel, clock and fault, so that what is
 * encoded can be compared with what is read back.
 */
import * as fc from 'fast-check';
import { BASE_CHANNELS, baseOf, channelName } from '../../../src/core/domain/channels.ts';
import type { PackToSend } from '../../../src/core/decode/senml/pack-records.ts';
import { VALUE_BOUNDS } from '../../../src/core/domain/channel-bounds.ts';
import type { PackColumn } from '../../../src/core/decode/messages.ts';

interface Reading {
  timeMs: number;
  part: number;
  fault: number;
}

const FAULTS_OF_TEN = 1;

const reading = (timeMs: fc.Arbitrary<number>): fc.Arbitrary<Reading> =>
  fc.record({
    timeMs,
    part: fc.oneof(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000),
    ),
    fault: fc.integer({ min: 0, max: 30 }).map((n) => (n <= 3 * FAULTS_OF_TEN ? n : 0)),
  });

/** One column: values between the channel's bounds, some of them faults. */
function columnOf(code: number, readings: readonly Reading[]): PackColumn {
  const base = baseOf(code)!;
  const { low, high } = VALUE_BOUNDS[base];
  const sorted = [...readings].sort((a, b) => a.timeMs - b.timeMs);
  const valueOf = ({ part }: Reading): number =>
    base === 'contact' ? Math.round(part) : low + part * (high - low);
  const values = Float64Array.from(sorted, (one) => (one.fault === 0 ? valueOf(one) + 0 : Number.NaN));
  const times = Float64Array.from(sorted, ({ timeMs }) => timeMs);
  const faults = Uint8Array.from(sorted, ({ fault }) => fault);
  return { channel: channelName(code), times, values, ...(faults.some((fault) => fault > 0) && { faults }) };
}

const codes = fc.uniqueArray(
  fc.tuple(fc.nat(14), fc.nat(BASE_CHANNELS.length - 1)).map(([pump, base]) => pump * 17 + base),
  { minLength: 1, maxLength: 5 },
);

const numbers = fc.option(
  fc.record({
    boot: fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER }),
    seq: fc.integer({ min: 1, max: 1e6 }),
  }),
  { nil: {} },
);

function columns(timeMs: fc.Arbitrary<number>): fc.Arbitrary<PackColumn[]> {
  return codes.chain((list) =>
    fc
      .tuple(...list.map(() => fc.array(reading(timeMs), { minLength: 1, maxLength: 12 })))
      .map((rows) => list.map((code, i) => columnOf(code, rows[i]!))),
  );
}

const utcMs = fc.integer({ min: 1_704_067_200_000, max: 1_704_067_200_000 + 4e11 });
const beforeMs = fc.integer({ min: -3_600_000, max: 0 });

/** Any pack that a node may send, its columns in the order in which they are read back. */
export const anyPack: fc.Arbitrary<PackToSend> = fc
  .oneof(
    utcMs.chain((startMs) =>
      columns(fc.integer({ min: startMs, max: startMs + 60_000 })).map((list) => ({
        clock: 'utc' as const,
        columns: list,
      })),
    ),
    columns(beforeMs).chain((list) =>
      fc.nat(1e9).map((upMs) => ({ clock: 'up' as const, upMs, columns: list })),
    ),
    columns(beforeMs).map((list) => ({ clock: 'arrival' as const, columns: list })),
  )
  .chain((pack) => numbers.map((stamp) => ({ node: 'barn-north', ...stamp, ...pack })));

/** The same pack with its columns by name: the order of a pack's columns says nothing. */
export function byName<P extends { columns: PackColumn[] }>(pack: P): P {
  return { ...pack, columns: [...pack.columns].sort((a, b) => (a.channel < b.channel ? -1 : 1)) };
}
