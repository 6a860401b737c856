import { createReadStream, existsSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { createGunzip } from 'node:zlib';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { encodePackCbor } from '../../../src/core/decode/senml-cbor/encode-pack.ts';
import { readMessage } from '../../../src/core/decode/read-message.ts';
import { parseRecordingLine, formatActLine, formatMessageLine } from '../../../src/core/decode/recording.ts';
import type { RecordedLine } from '../../../src/core/decode/recording.ts';
import { goldenIndex, goldenMessage, plainMessage } from '../../contract/golden.ts';
import { anyPack } from './pack-arbitrary.ts';

const AT_MS = Date.UTC(2026, 2, 12, 10);

const parse = (line: string): RecordedLine => parseRecordingLine(new TextEncoder().encode(line));
const textOf = (line: RecordedLine): string | undefined =>
  line.is === 'message' ? new TextDecoder().decode(line.payload) : undefined;

describe('parseRecordingLine', () => {
  test.each([
    [
      'as it stands',
      '{"at":"2026-03-12T10:00:00Z","topic":"t","payload":[{"n":"a","v":1.50}]}',
      '[{"n":"a","v":1.50}]',
    ],
    [
      'with more keys around',
      '{"mid":3,"at":"2026-03-12T10:00:00Z","payload":{"a":"}]"},"qos":1,"topic":"t","x":[{}]}',
      '{"a":"}]"}',
    ],
    ['with white space', ' { "at" : "2026-03-12T10:00:00Z" , "topic":"t", "payload" : [ 1 ] } \r', '[ 1 ]'],
    ['a bare word', '{"at":"2026-03-12T10:00:00Z","topic":"t","payload":"here"}', 'here'],
    [
      'a text with escapes',
      String.raw`{"at":"2026-03-12T10:00:00Z","topic":"t","payload":"\"here\""}`,
      '"here"',
    ],
    ['a number', '{"at":"2026-03-12T10:00:00Z","topic":"t","payload":-1.5E+3}', '-1.5E+3'],
    ['nothing', '{"at":"2026-03-12T10:00:00Z","topic":"t","payload":null}', ''],
    ['no payload at all', '{"at":"2026-03-12T10:00:00Z","topic":"t"}', ''],
    ['base64', '{"at":"2026-03-12T10:00:00Z","topic":"t","payload64":"aGVyZQ=="}', 'here'],
    [
      'keys with escapes',
      String.raw`{"at":"2026-03-12T10:00:00Z","topic":"t","p\u0061yload":[1, 2.0]}`,
      '[1,2]',
    ],
  ])('payload %s', (_, line, payload) => {
    const read = parse(line);
    expect(read).toMatchObject({ is: 'message', tstMs: AT_MS, topic: 't', retained: false });
    expect(textOf(read)).toBe(payload);
  });

  test.each([
    ['1', true],
    ['true', true],
    ['0', false],
    ['false', false],
    ['"1"', false],
  ])('retained or retain %s', (text, retained) => {
    for (const key of ['retained', 'retain'])
      expect(parse(`{"at":"2026-03-12T10:00:00Z","topic":"t","${key}":${text},"payload":1}`)).toMatchObject({
        retained,
      });
  });

  test('tst is read for at, and at counts where both are there', () => {
    expect(parse('{"tst":"2026-03-12T10:00:00Z","topic":"t","payload":1}')).toMatchObject({ tstMs: AT_MS });
    expect(
      parse('{"tst":"2026-03-12T11:00:00Z","at":"2026-03-12T10:00:00Z","topic":"t","payload":1}'),
    ).toMatchObject({ tstMs: AT_MS });
    expect(parse('{"tst":"2026-03-12T10:00:00Z","act":{"kind":"tick"}}')).toMatchObject({ is: 'act' });
  });

  test('an offset behind a Z counts, the Z does not', () => {
    expect(parse('{"tst":"2026-03-12T10:00:00.250000Z-0700","topic":"t","payload":1}')).toMatchObject({
      tstMs: AT_MS + 7 * 3_600_000 + 250,
    });
  });

  test('an act is handed on as it is', () => {
    expect(
      parse('{"at":"2026-03-12T10:00:00Z","act":{"kind":"visit-opened","well":"north-paddock"}}'),
    ).toEqual({
      is: 'act',
      tstMs: AT_MS,
      act: { kind: 'visit-opened', well: 'north-paddock' },
    });
  });

  test.each([
    ['', 'blank'],
    [' \t\r', 'blank'],
    ['connection lost, trying again', 'not-json'],
    ['{"at":"', 'not-json'],
    ['{"at":"2026-03-12T10:00:00Z","topic":"t","payload":[{"n":"a"', 'not-json'],
    ['{"at":"2026-03-12T10:00:00Z","topic":"t","payload":1}{"at":"2026-03-12T10:00:00Z"}', 'not-json'],
    ['[1]', 'not-json'],
    ['{"topic":"t","payload":1}', 'no-time'],
    ['{"at":"yesterday","topic":"t","payload":1}', 'no-time'],
    ['{"at":1773309600,"topic":"t","payload":1}', 'no-time'],
    ['{"at":"2026-03-12T10:00:00Z","payload":1}', 'no-message'],
    ['{"at":"2026-03-12T10:00:00Z","act":nonsense}', 'not-json'],
  ])('%s is ignored: %s', (line, why) => {
    expect(parse(line)).toEqual({ is: 'ignored', reason: why });
  });

  test('never throws, whatever the bytes', () => {
    const piece = fc.oneof(
      fc.constantFrom(
        '{',
        '}',
        '"at":',
        '"tst":',
        '"payload":',
        '"2026-03-12T10:00:00Z"',
        ',',
        '[',
        ']',
        '\\',
        '"',
      ),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.array(piece), fc.uint8Array(), (pieces, bytes) => {
        parse(pieces.join(''));
        parseRecordingLine(bytes);
      }),
      { numRuns: 5000, seed: 6 },
    );
  });
});

describe('formatMessageLine', () => {
  test('writes at and retained', () => {
    const payload = new TextEncoder().encode('[]');
    const line = (retained: boolean): string =>
      formatMessageLine({ tstMs: AT_MS, topic: 't', payload, retained });
    expect(line(false)).toBe('{"at":"2026-03-12T10:00:00.000Z","topic":"t","payload":[]}');
    expect(line(true)).toBe('{"at":"2026-03-12T10:00:00.000Z","topic":"t","retained":true,"payload":[]}');
  });

  const messages = [...goldenIndex.accepted, ...goldenIndex.refused];

  test.each(messages)('$file: reads the same from a recording', (entry) => {
    const raw = goldenMessage(entry);
    const line = formatMessageLine({
      tstMs: AT_MS,
      topic: raw.topic,
      payload: raw.payload,
      retained: raw.retained,
    });
    expect(line).not.toMatch(/[\r\n]/);
    const read = parse(line);
    if (read.is !== 'message') throw new Error(`ignored: ${line}`);
    expect(read).toMatchObject({ tstMs: AT_MS, topic: raw.topic, retained: raw.retained });
    const { contentType: _contentType, ...plain } = raw;
    expect(plainMessage(readMessage({ ...plain, payload: read.payload }))).toEqual(
      plainOrSame(readMessage(plain)),
    );
  });

  /** Reasons name a number of bytes, which white space at the end changes. */
  function plainOrSame(message: ReturnType<typeof readMessage>): unknown {
    if (message.is !== 'refusal') return plainMessage(message);
    return { is: 'refusal', refusal: { ...message.refusal, why: expect.any(Object) as object } };
  }

  test('CBOR comes back byte for byte', () => {
    fc.assert(
      fc.property(anyPack, (pack) => {
        const payload = encodePackCbor(pack);
        const read = parse(formatMessageLine({ tstMs: AT_MS, topic: 't', payload, retained: false }));
        expect(read.is === 'message' && Buffer.from(read.payload).equals(payload)).toBe(true);
      }),
      { numRuns: 200, seed: 64 },
    );
  });

  test('the same pack twice is the same bytes, and so the same digest', () => {
    const entry = goldenIndex.accepted.find(({ file }) => file === 'accepted/white-space.json')!;
    const { topic, payload } = goldenMessage(entry);
    const [one, two] = [AT_MS, AT_MS + 1000].map((tstMs) =>
      parse(formatMessageLine({ tstMs, topic, payload, retained: false })),
    );
    expect(
      one?.is === 'message' && two?.is === 'message' && Buffer.from(one.payload).equals(two.payload),
    ).toBe(true);
  });
});

test('formatActLine: is read back as the same act', () => {
  const act = { kind: 'pinned', well: 'north-paddock', pump: 'p1', amps: '7.9 A' };
  expect(parse(formatActLine(AT_MS, act))).toEqual({ is: 'act', tstMs: AT_MS, act });
});

describe('recordings of an independent simulator', () => {
  const folder = new URL('../../../../shared/recordings/', import.meta.url);
  const there = existsSync(folder);

  /** Counts what the lines of a recording are. */
  async function count(name: string): Promise<Record<string, number>> {
    const counts: Record<string, number> = {};
    const lines = createInterface({ input: createReadStream(new URL(name, folder)).pipe(createGunzip()) });
    for await (const line of lines) {
      const read = parse(line);
      const what =
        read.is === 'message' ? readMessage({ root: 'wells', ...read, arrivalMs: read.tstMs }) : read;
      const key =
        what.is === 'refusal' ? what.refusal.refused : what.is === 'ignored' ? what.reason : what.is;
      counts[key] = (counts[key] ?? 0) + 1;
    }
    return counts;
  }

  test.skipIf(!there)(
    'a recording in CBOR is read whole (skipped where ../shared/recordings is not there)',
    async () => {
      expect(await count('three-phase-cbor.ndjson.gz')).toEqual({
        presence: 1,
        hello: 1,
        'from-server': 1153,
        pack: 11_520,
      });
    },
  );

  test.skipIf(!there)(
    'a recording with a visit: acts, and lines that are none (skipped likewise)',
    async () => {
      const counts = await count('visit.ndjson.gz');
      expect(counts).toMatchObject({ presence: 1, hello: 1, 'from-server': 2881, pack: 28_800, act: 3 });
      expect(
        Object.keys(counts).filter(
          (key) => !['presence', 'hello', 'from-server', 'pack', 'act', 'blank', 'not-json'].includes(key),
        ),
      ).toEqual([]);
    },
  );
});
