import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { csvTable } from '../../../src/book/packet/csv.ts';
import { embedRecord, recordInPage } from '../../../src/book/packet/embed.ts';
import { makePage, makeZip, openPacket, type PacketSource } from '../../../src/book/packet/packet.ts';
import { paperFileName } from '../../../src/book/packet/paper-names.ts';
import { papersOf } from '../../../src/book/packet/record.ts';
import { openZip, zipPieces } from '../../../src/book/packet/zip.ts';
import { millRecord, PAPERS, sha256 } from '../../support/packet-well.ts';

const papers = new Map(Object.values(PAPERS).map((bytes) => [sha256(bytes), bytes]));
const source: PacketSource = {
  record: millRecord(),
  sha256,
  hasPaper: (hash) => papers.has(hash),
  readPaper: (hash) => papers.get(hash)!,
};
const zip = (): Buffer => Buffer.concat([...makeZip(source)]);
const problem = (bytes: Uint8Array): string => {
  const opened = openPacket(bytes, sha256);
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
      ...papersOf(millRecord()).map((hash) => paperFileName(hash, millRecord().entries)),
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
    const opened = openPacket(zip(), sha256);
    if ('problem' in opened) throw new Error(opened.problem);
    expect(opened.record).toEqual(millRecord());
    expect(opened.missing).toEqual([]);
    expect(opened.papers.map(({ hash, read }) => sha256(read()) === hash)).toEqual([true, true]);
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
const logName = paperFileName(sha256(PAPERS.log), millRecord().entries);
const text = (content: string): Uint8Array => new TextEncoder().encode(content);

describe('a packet is refused', () => {
  const rows: [why: string, bytes: Uint8Array, says: RegExp][] = [
    ['that is nothing', new Uint8Array(), /neither the ZIP nor the page/],
    ['that is a photo', PAPERS.photo, /neither the ZIP nor the page/],
    ['that is another page', text('<!doctype html><p>Hello'), /neither the ZIP nor the page/],
    ['cut off in the middle', zip().subarray(0, zip().length / 2), /the ZIP is not whole/],
    ['without a record', altered({ 'record.ndjson': undefined }), /there is no record\.ndjson in it/],
    ['with a record of something else', altered({ 'record.ndjson': text('hello') }), /line 1 is no JSON/],
    [
      'with a paper changed',
      altered({ [logName]: text('Static level 400 ft') }),
      /is not the paper that was put in/,
    ],
    [
      'with a paper too many',
      altered({ 'papers/../../evil.txt': text('hello') }),
      /evil\.txt is not the paper that was put in/,
    ],
  ];
  test.each(rows)('%s', (_, bytes, says) => expect(problem(bytes)).toMatch(says));

  test('of a size that it does not have', () => {
    // The central directory says of the record that it is 4 GB long (APPNOTE 4.3.12: 24 bytes after the mark).
    const bytes = zip();
    const at = bytes.indexOf('record.ndjson', bytes.lastIndexOf('mill.html')) - 46;
    expect(bytes.readUInt32LE(at)).toBe(0x02014b50);
    bytes.writeUInt32LE(0xfffffffe, at + 24);
    expect(problem(bytes)).toMatch(/its record may have 256 MiB at most/);
  });

  test('but one without a paper is taken, and the paper said to be missing', () => {
    const opened = openPacket(altered({ [logName]: undefined }), sha256);
    expect(opened).toMatchObject({ missing: [sha256(PAPERS.log)] });
  });
});

describe('the record in the page', () => {
  test('is found again, short or long', () => {
    const short = 'one </script><script>alert(1)</script>\ntwo\n';
    const long = short.repeat(5_000);
    for (const record of [short, long]) {
      const block = embedRecord(record);
      expect(block.match(/<\/script>/g)).toHaveLength(1);
      expect(recordInPage(`<p>${block}</p>`, 1_000_000)).toBe(record);
    }
    expect(recordInPage(embedRecord(long), 1_000)).toBeUndefined();
  });

  test('makes the page a packet without papers', () => {
    const opened = openPacket(text(makePage(source)), sha256);
    if ('problem' in opened) throw new Error(opened.problem);
    expect(opened.record).toEqual(millRecord());
    expect(opened.missing).toHaveLength(2);
  });
});

test('a table is read by spreadsheets, and runs nothing in them', () => {
  expect(
    csvTable(
      ['name', 'amps'],
      [
        ['=1+1', undefined],
        ['a, "b"', 7.9],
        ['Köln', -1],
      ],
    ),
  ).toBe('\ufeffname,amps\r\n\'=1+1,\r\n"a, ""b""",7.9\r\nKöln,-1\r\n');
});

test('a ZIP says what is in it before anything is unpacked', () => {
  const bytes = Buffer.concat([...zipPieces([{ name: 'a', bytes: () => text('hello'), as: 'deflated' }])]);
  expect(openZip(bytes)?.files).toEqual([{ name: 'a', bytes: 5 }]);
  expect(openZip(bytes)?.read('b')).toBeUndefined();
  expect(openZip(text('hello'))).toBeUndefined();
});
