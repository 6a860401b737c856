import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { RECORD_BLOCK, recordData, extractRecord } from '../../../src/logbook/export/zip/embed.ts';
import {
  buildExportPage,
  buildExportZip,
  openExport,
  type ExportSource,
} from '../../../src/logbook/export/export.ts';
import { documentFileName } from '../../../src/logbook/export/document-names.ts';
import { documentsIn } from '../../../src/logbook/export/record.ts';
import {
  MAX_FILES,
  openZip,
  zipChunks,
  type OpenedZip,
  type ZipWork,
} from '../../../src/logbook/export/zip/zip.ts';
import { millRecord, DOCUMENTS, sha256, STYLE } from '../../support/export-well.ts';

const papers = new Map(Object.values(DOCUMENTS).map((bytes) => [sha256(bytes), bytes]));
const source: ExportSource = {
  record: millRecord(),
  style: STYLE,
  sha256,
  hasDocument: (hash) => papers.has(hash),
  readDocument: (hash) => papers.get(hash)!,
};
const zip = (): Buffer => Buffer.concat([...buildExportZip(source)]);
const problem = (bytes: Uint8Array): string => {
  const opened = openExport(bytes, sha256);
  return 'problem' in opened ? opened.problem : 'taken';
};

describe('the ZIP of a packet', () => {
  test('holds the page, the record, tables and papers, and no name is a path', () => {
    expect(Object.keys(unzipSync(zip()))).toEqual([
      'mill.html',
      'record.ndjson',
      'cycles.csv',
      'days.csv',
      'entries.csv',
      ...documentsIn(millRecord()).map((hash) => documentFileName(hash, millRecord().entries)),
    ]);
    const [photo, log] = Object.keys(unzipSync(zip()))
      .slice(5)
      .toSorted((a, b) => (a.endsWith('.jpg') ? -1 : b.length));
    expect(photo).toMatch(/^papers\/[0-9a-f]{16}-tank\.jpg$/);
    expect(log).toMatch(/^papers\/[0-9a-f]{16}-log-of-the-well\.txt$/);
  });

  test('is the same bytes whenever and in whichever time zone it is made', () => {
    const zone = process.env['TZ'];
    const first = zip();
    process.env['TZ'] = 'Pacific/Auckland';
    const second = zip();
    if (zone === undefined) delete process.env['TZ'];
    else process.env['TZ'] = zone;
    expect(Buffer.compare(first, second)).toBe(0);
  });

  test('is opened again with all of it', () => {
    const opened = openExport(zip(), sha256);
    if ('problem' in opened) throw new Error(opened.problem);
    expect(opened.record).toEqual(millRecord());
    expect(opened.missing).toEqual([]);
    expect(opened.documents.map(({ hash, read }) => sha256(read()) === hash)).toEqual([true, true]);
  });
});

/** The mill's ZIP with files put in, changed or (undefined) taken out. */
function altered(files: Record<string, Uint8Array | undefined>): Uint8Array {
  const all = { ...unzipSync(zip()), ...files };
  return zipSync(
    Object.fromEntries(
      Object.entries(all).filter((file): file is [string, Uint8Array] => file[1] !== undefined),
    ),
  );
}
const logName = documentFileName(sha256(DOCUMENTS.log), millRecord().entries);
const NONE = new Uint8Array();
const text = (content: string): Uint8Array => new TextEncoder().encode(content);

describe('a packet is refused', () => {
  const rows: [why: string, bytes: Uint8Array, says: RegExp][] = [
    ['that is nothing', new Uint8Array(), /neither the ZIP nor the page/],
    ['that is a photo', DOCUMENTS.photo, /neither the ZIP nor the page/],
    ['that is another page', text('<!doctype html><p>Hello'), /neither the ZIP nor the page/],
    ['cut off in the middle', zip().subarray(0, zip().length / 2), /the ZIP is incomplete/],
    ['without a record', altered({ 'record.ndjson': undefined }), /there is no record\.ndjson in it/],
    ['with a record of something else', altered({ 'record.ndjson': text('hello') }), /line 1 is not JSON/],
    [
      'with a paper changed',
      altered({ [logName]: text('Static level 400 ft') }),
      /is not the document that was exported/,
    ],
    [
      'with a paper too many',
      altered({ 'papers/../../evil.txt': text('hello') }),
      /evil\.txt is not the document that was exported/,
    ],
  ];
  test.each(rows)('%s', (_, bytes, says) => expect(problem(bytes)).toMatch(says));

  test('of a size that it does not have', () => {
    // The central directory says of the record that it is longer than it may be (APPNOTE 4.3.12: 24
    // bytes after the mark).
    const bytes = zip();
    const at = bytes.indexOf('record.ndjson', bytes.lastIndexOf('mill.html')) - 46;
    expect(bytes.readUInt32LE(at)).toBe(0x02014b50);
    bytes.writeUInt32LE(2 ** 28 + 1, at + 24);
    expect(problem(bytes)).toMatch(/its record may have 256 MiB at most/);
    bytes.writeUInt32LE(0xfffffffe, at + 24);
    expect(problem(bytes)).toMatch(/unpacked it may have 512 MiB at most/);
  });

  test('but one without a paper is taken, and the paper said to be missing', () => {
    const opened = openExport(altered({ [logName]: undefined }), sha256);
    expect(opened).toMatchObject({ missing: [sha256(DOCUMENTS.log)] });
  });
});

const block = (record: string): string =>
  `<script type="${RECORD_BLOCK.type}" id="${RECORD_BLOCK.id}">${recordData(record)}</script>`;

describe('the record in the page', () => {
  test('is found again, short or long', () => {
    const short = 'one </script><script>alert(1)</script>\ntwo\n';
    const long = short.repeat(5_000);
    for (const record of [short, long]) {
      const data = block(record);
      expect(data.match(/<\/script>/g)).toHaveLength(1);
      expect(extractRecord(`<p>${data}</p>`, 1_000_000)).toBe(record);
    }
    expect(extractRecord(block(long), 1_000)).toBeUndefined();
  });

  test('makes the page a packet without papers', () => {
    const opened = openExport(text(buildExportPage(source)), sha256);
    if ('problem' in opened) throw new Error(opened.problem);
    expect(opened.record).toEqual(millRecord());
    expect(opened.missing).toHaveLength(2);
  });
});

describe('openZip', () => {
  const small = (...names: string[]): Buffer =>
    Buffer.concat([
      ...zipChunks(
        names.map((name) => ({ name, bytes: () => text('hello'), compression: 'deflate' as const })),
      ),
    ]);
  const opened = (bytes: Uint8Array): OpenedZip => {
    const zip = openZip(bytes);
    if ('problem' in zip) throw new Error(zip.problem);
    return zip;
  };

  test('says what is in it before anything is unpacked', () => {
    const work: ZipWork = { entries: 0, unpackedBytes: 0 };
    const zip = openZip(small('a', 'ä'), work);
    expect(zip).toMatchObject({
      files: [
        { name: 'a', bytes: 5 },
        { name: 'ä', bytes: 5 },
      ],
    });
    expect(work).toEqual({ entries: 2, unpackedBytes: 0 });
  });

  test('unpacks by entry, and what another program packed too', () => {
    const zip = opened(zipSync({ a: text('one'), b: [text('two'), { level: 0 }] }));
    expect(zip.files.map((file) => Buffer.from(zip.read(file)!).toString())).toEqual(['one', 'two']);
  });

  test('refuses more files than a packet has after looking at one too many', () => {
    const many = zipSync(
      Object.fromEntries(Array.from({ length: MAX_FILES + 50 }, (_, n) => [`f${n}`, NONE])),
    );
    const work: ZipWork = { entries: 0, unpackedBytes: 0 };
    expect(openZip(many, work)).toEqual({ problem: 'it has more than 10,000 files' });
    expect(work).toEqual({ entries: MAX_FILES + 1, unpackedBytes: 0 });
  });

  test('looks at no more entries than are there, whatever a ZIP64 end record claims', () => {
    // APPNOTE 4.3.14 and 4.3.15: an end record and its locator, put before the usual end, that
    // claim 2^32 - 1 entries.
    const usual = small('a');
    const end = usual.length - 22;
    const record = Buffer.alloc(56);
    record.writeUInt32LE(0x06064b50, 0);
    record.writeUInt32LE(0xffffffff, 24);
    record.writeUInt32LE(0xffffffff, 32);
    record.writeUInt32LE(usual.readUInt32LE(end + 16), 48);
    const locator = Buffer.alloc(20);
    locator.writeUInt32LE(0x07064b50, 0);
    locator.writeUInt32LE(end, 8);
    const work: ZipWork = { entries: 0, unpackedBytes: 0 };
    const claims = Buffer.concat([usual.subarray(0, end), record, locator, usual.subarray(end)]);
    expect(openZip(claims, work)).toMatchObject({ files: [{ name: 'a' }] });
    expect(work.entries).toBe(1);
    // One that only the ZIP64 record can lead through is not taken.
    claims.writeUInt16LE(0xffff, claims.length - 22 + 10);
    expect(openZip(claims, work)).toEqual({ problem: 'the ZIP is incomplete' });
    expect(work.entries).toBe(2);
  });

  test('refuses two files of one name', () => {
    const two = small('a', 'b');
    two[two.lastIndexOf('b', two.length - 22)] = 'a'.charCodeAt(0);
    expect(openZip(two)).toEqual({ problem: 'it has two files called "a"' });
  });

  test.each([
    ['nothing', new Uint8Array()],
    ['no ZIP', text('hello')],
    ['half of one', small('a').subarray(0, 50)],
  ])('refuses %s', (_, bytes) => expect(openZip(bytes)).toEqual({ problem: 'the ZIP is incomplete' }));

  test.each([
    ['more', 4],
    ['less', 6],
  ])('gives nothing of a file that unpacks to %s than the list says', (_, claimed) => {
    const bytes = small('a');
    bytes.writeUInt32LE(claimed, bytes.readUInt32LE(bytes.length - 6) + 24);
    const zip = opened(bytes);
    expect(zip.read(zip.files[0]!)).toBeUndefined();
  });
});

test('papers of a packet are each unpacked once, and again when they are asked for', () => {
  const work: ZipWork = { entries: 0, unpackedBytes: 0 };
  // The same paper under forty names more, as a trick to have it unpacked without end.
  const more = Object.fromEntries(Array.from({ length: 40 }, (_, n) => [`papers/${n}.txt`, DOCUMENTS.log]));
  const packet = openExport(altered(more), sha256, work);
  if ('problem' in packet) throw new Error(packet.problem);
  const sizes = unzipSync(zip());
  const once = sizes['record.ndjson']!.length + DOCUMENTS.photo.length + 41 * DOCUMENTS.log.length;
  expect(work.unpackedBytes).toBe(once);
  expect(packet.documents).toHaveLength(2);
  for (const { read } of packet.documents) read();
  expect(work.unpackedBytes).toBe(once + DOCUMENTS.photo.length + DOCUMENTS.log.length);
});

test('a record in the page is unpacked no further than the page says that it goes', () => {
  const page = block('x'.repeat(3_000_000));
  expect(extractRecord(page, 3_000_000)).toHaveLength(3_000_000);
  expect(extractRecord(page.replace('"bytes":3000000', '"bytes":1000'), 3_000_000)).toBeUndefined();
});
