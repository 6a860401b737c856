/**
 * The door of the wire under everything that may come to it: limits, and 100,000 spoilt and random
 * messages, none of which throws. The work for one message is bounded by its bytes, which the first
 * checks limit; nothing here measures time.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodePackCbor } from '../../../src/core/decode/senml-cbor/encode-pack.ts';
import { encodePackJson } from '../../../src/core/decode/senml-json/encode-pack.ts';
import { MAX_PAYLOAD_BYTES, MAX_RECORDS } from '../../../src/core/decode/limits.ts';
import { REFUSALS } from '../../../src/core/decode/messages.ts';
import type { Message, PackColumn } from '../../../src/core/decode/messages.ts';
import { readMessage } from '../../../src/core/decode/read-message.ts';
import { goldenIndex, goldenMessage } from '../../contract/golden.ts';

const TOPIC = 'wells/barn-north/readings';

function read(
  payload: Uint8Array | string,
  topic = TOPIC,
  more: { retained?: boolean; contentType?: string } = {},
): Message {
  const bytes = typeof payload === 'string' ? new TextEncoder().encode(payload) : payload;
  return readMessage({
    root: 'wells',
    topic,
    payload: bytes,
    retained: false,
    arrivalMs: 1795600060000,
    ...more,
  });
}

function refusalOf(message: Message): string | undefined {
  return message.is === 'refusal' ? message.refusal.refused : undefined;
}

function columnOf(length: number): PackColumn {
  return {
    channel: 'current',
    times: Float64Array.from({ length }, (_, i) => 1795600000000 + 20 * i),
    values: Float64Array.from({ length }, (_, i) => 40 + (i % 10) / 10),
  };
}

describe('readMessage: limits', () => {
  test.each([
    ['JSON', encodePackJson],
    ['CBOR', encodePackCbor],
  ])('%s: 2,000 records are taken, 2,001 are not', (_, encode) => {
    const pack = (length: number): Uint8Array =>
      encode({ node: 'barn-north', clock: 'utc', boot: 17, seq: 1, columns: [columnOf(length)] });
    const full = read(pack(MAX_RECORDS));
    expect(full.is === 'pack' && full.pack.columns[0]!.values.length).toBe(MAX_RECORDS);
    expect(refusalOf(read(pack(MAX_RECORDS + 1)))).toBe('too-many-records');
  });

  test('128 KiB are taken, a byte more is not, on every topic of a node', () => {
    const pack = new TextDecoder().decode(
      encodePackJson({ node: 'barn-north', clock: 'utc', columns: [columnOf(3)] }),
    );
    expect(read(pack.padEnd(MAX_PAYLOAD_BYTES)).is).toBe('pack');
    expect(refusalOf(read(pack.padEnd(MAX_PAYLOAD_BYTES + 1)))).toBe('too-large');
    for (const kind of ['hello', 'presence', 'start']) {
      expect(refusalOf(read(' '.repeat(MAX_PAYLOAD_BYTES + 1), `wells/barn-north/${kind}`))).toBe(
        'too-large',
      );
    }
  });

  test.each([
    ['brackets', '['.repeat(MAX_PAYLOAD_BYTES), 'too-deep'],
    ['objects', '{"a":'.repeat(26_000), 'too-deep'],
    ['endless CBOR arrays', Uint8Array.from({ length: MAX_PAYLOAD_BYTES }, () => 0x9f), 'too-deep'],
    [
      'CBOR maps in maps',
      Uint8Array.from({ length: MAX_PAYLOAD_BYTES }, (_, i) => (i % 2 === 0 ? 0xa1 : 0)),
      'too-deep',
    ],
    [
      'CBOR tags',
      Uint8Array.from({ length: MAX_PAYLOAD_BYTES }, (_, i) => [0xd9, 0xd9, 0xf7][i % 3]!),
      'not-cbor',
    ],
    ['empty records', `[${'{},'.repeat(1999)}{}]`, 'bad-name'],
    [
      'a number of 130,000 digits',
      `[{"bn":"barn-north:","n":"current","v":${'9'.repeat(130_000)}}]`,
      'not-a-number',
    ],
    ['one byte', Uint8Array.of(0xff), 'not-cbor'],
    ['zeros', new Uint8Array(1000), 'not-json'],
  ])('%s: refused without harm', (_, payload, reason) => {
    expect(refusalOf(read(payload))).toBe(reason);
  });

  test('a refusal carries its node, where the topic names one', () => {
    expect(read('')).toMatchObject({ refusal: { node: 'barn-north' } });
    expect(read('', 'elsewhere')).toEqual({
      is: 'refusal',
      refusal: {
        refused: 'unknown-topic',
        why: { reason: 'topics', figures: { root: 'wells', topic: '"elsewhere"' } },
      },
    });
  });

  test('our own kept and ask are passed by, whatever they hold', () => {
    expect(read('{', 'wells/barn-north/kept')).toEqual({ is: 'from-server', node: 'barn-north' });
    expect(read('', 'wells/barn-north/ask')).toEqual({ is: 'from-server', node: 'barn-north' });
  });
});

describe('readMessage: 100,000 spoilt messages, none throws', () => {
  const golden = [...goldenIndex.accepted, ...goldenIndex.refused].map((entry) => goldenMessage(entry));
  const reasons = new Set<string>(REFUSALS);

  function check(message: Message): void {
    if (message.is === 'refusal' && !reasons.has(message.refusal.refused))
      throw new Error(message.refusal.refused);
    if (message.is !== 'pack') return;
    for (const { times, values, faults } of message.pack.columns) {
      const sound = times.length === values.length && times.length > 0 && times.every(Number.isSafeInteger);
      const numbers = values.every((value, i) => Number.isFinite(value) === ((faults?.[i] ?? 0) === 0));
      if (!sound || !numbers) throw new Error('a pack with unsound columns was let through');
    }
  }

  test('80,000 golden messages with bytes changed, cut, doubled and moved', () => {
    const spoil = fc.record({
      which: fc.nat(golden.length - 1),
      edits: fc.array(fc.record({ at: fc.nat(), byte: fc.nat(255), how: fc.nat(3) }), {
        minLength: 1,
        maxLength: 6,
      }),
    });
    fc.assert(
      fc.property(spoil, ({ which, edits }) => {
        const message = golden[which]!;
        const bytes = [...message.payload];
        for (const { at, byte, how } of edits) {
          const place = at % (bytes.length + 1);
          if (how === 0) bytes[place] = byte;
          else if (how === 1) bytes.splice(place, 1 + (byte % 8));
          else if (how === 2)
            bytes.splice(
              place,
              0,
              ...bytes.slice(byte % (bytes.length + 1), (byte % (bytes.length + 1)) + 16),
            );
          else bytes[place] = (bytes[place] ?? 0) ^ (1 << (byte % 8));
        }
        check(readMessage({ ...message, payload: Uint8Array.from(bytes) }));
      }),
      { numRuns: 80_000, seed: 20260801 },
    );
  });

  test('10,000 random byte strings on every topic', () => {
    const topic = fc.constantFrom('hello', 'presence', 'readings', 'start', 'kept', 'ask');
    const contentType = fc.constantFrom('application/senml+json', 'application/senml+cbor', 'text/plain', '');
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), topic, contentType, (payload, kind, type) => {
        check(read(payload, `wells/barn-north/${kind}`, { contentType: type }));
      }),
      { numRuns: 10_000, seed: 20260802 },
    );
  });

  test('10,000 random JSON values with the keys of a pack', () => {
    const value = fc.oneof(
      fc.integer(),
      fc.double(),
      fc.string(),
      fc.boolean(),
      fc.constant(null),
      fc.constantFrom('barn-north:', 'current', 'A', 'bad', 1795600000),
    );
    const key = fc.constantFrom(
      'bn',
      'bt',
      'bu',
      'bv',
      'bver',
      'n',
      'u',
      'v',
      'vs',
      'vb',
      'vd',
      's',
      't',
      'ut',
      'boot',
      'seq',
      'first',
      'up',
      '__proto__',
      'x_',
    );
    const records = fc.array(fc.oneof(fc.dictionary(key, value, { maxKeys: 6 }), value), { maxLength: 5 });
    fc.assert(
      fc.property(records, (list) => {
        check(read(JSON.stringify(list)));
      }),
      { numRuns: 10_000, seed: 20260803 },
    );
  });
});
