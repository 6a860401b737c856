/**
 * The packet of a well: the page, the record, tables and papers in one ZIP; and a packet that came, opened and checked. The page alone is a
 * packet too, without papers.
 */
import { strFromU8, strToU8 } from 'fflate';
import type { UnitSystem } from '../../../shared/quantity/print-quantity.ts';
import { MOST_PACKET_BYTES, MOST_PAPER_BYTES, MOST_RECORD_BYTES } from '../limits.ts';
import { paperType } from '../paper-type.ts';
import { cyclesCsv, daysCsv, entriesCsv } from './csv.ts';
import { recordInPage } from './embed.ts';
import { packetPage } from './page.ts';
import { paperFileName, PAPERS_PATH } from './paper-names.ts';
import { readRecord } from './read-record.ts';
import { papersOf, printRecord, type Sha256, type WellRecord } from './record.ts';
import { openZip, zipPieces, type OpenZip, type ZipEntry, type ZipWork } from './zip.ts';
import type { ZipFile } from './zip-directory.ts';

export interface PacketSource {
  record: WellRecord;
  units?: UnitSystem;
  sha256: Sha256;
  hasPaper: (hash: string) => boolean;
  readPaper: (hash: string) => Uint8Array;
}

const RECORD_FILE = 'record.ndjson';

export function makePage(source: PacketSource): string {
  return pageOf(source, printRecord(source.record, source.sha256));
}

function pageOf({ record, units, hasPaper }: PacketSource, text: string): string {
  const papers = new Set(papersOf(record).filter(hasPaper));
  return packetPage({ record, text, papers, ...(units !== undefined && { units }) });
}

/** The ZIP in pieces. */
export function makeZip(source: PacketSource): Generator<Uint8Array> {
  return zipPieces(filesOf(source));
}

function* filesOf(source: PacketSource): Generator<ZipEntry> {
  const { record, hasPaper, readPaper } = source;
  const text = printRecord(record, source.sha256);
  const written = (name: string, content: () => string): ZipEntry => ({
    name,
    bytes: () => strToU8(content()),
    as: 'deflated',
  });
  yield written(`${record.well}.html`, () => pageOf(source, text));
  yield written(RECORD_FILE, () => text);
  yield written('cycles.csv', () => cyclesCsv(record));
  yield written('days.csv', () => daysCsv(record));
  yield written('entries.csv', () => entriesCsv(record));
  for (const hash of papersOf(record).filter(hasPaper))
    yield { name: paperFileName(hash, record.entries), bytes: () => readPaper(hash), as: 'stored' };
}

export interface OpenPacket {
  record: WellRecord;
  /** Those that came, each whole and of a kind that is kept. */
  papers: { hash: string; read: () => Uint8Array }[];
  /** Hashes of papers that belong to the record and did not come. */
  missing: string[];
}

/** Never throws. The problem is one sentence. `work` counts what a ZIP cost to open. */
export function openPacket(
  bytes: Uint8Array,
  sha256: Sha256,
  work?: ZipWork,
): OpenPacket | { problem: string } {
  if (bytes.length > MOST_PACKET_BYTES)
    return { problem: `Cannot take packet: it may have ${MOST_PACKET_BYTES / 2 ** 20} MiB at most` };
  return isZip(bytes) ? openZipped(bytes, sha256, work) : openAlone(bytes, sha256);
}

/** APPNOTE 4.3.7: a local file header begins a ZIP that holds anything. */
function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

function openAlone(bytes: Uint8Array, sha256: Sha256): OpenPacket | { problem: string } {
  const text = recordInPage(strFromU8(bytes), MOST_RECORD_BYTES);
  if (text === undefined)
    return { problem: 'Cannot take packet: this is neither the ZIP nor the page of a well’s packet' };
  const read = readRecord(text, sha256);
  return 'problem' in read ? read : { record: read.record, papers: [], missing: papersOf(read.record) };
}

function openZipped(bytes: Uint8Array, sha256: Sha256, work?: ZipWork): OpenPacket | { problem: string } {
  const zip = openZip(bytes, work);
  if ('problem' in zip) return { problem: `Cannot take packet: ${zip.problem}` };
  const listed = zip.files.find(({ name }) => name === RECORD_FILE);
  if (!listed) return { problem: `Cannot take packet: there is no ${RECORD_FILE} in it` };
  if (listed.bytes > MOST_RECORD_BYTES)
    return { problem: `Cannot take packet: its record may have ${MOST_RECORD_BYTES / 2 ** 20} MiB at most` };
  const text = zip.read(listed);
  if (!text) return { problem: 'Cannot take packet: the ZIP is not whole' };
  const read = readRecord(strFromU8(text), sha256);
  return 'problem' in read ? read : withPapers(zip, read.record, sha256);
}

/** A paper is known by the hash of its bytes and by nothing else: what its file is called leads nowhere. */
function withPapers(zip: OpenZip, record: WellRecord, sha256: Sha256): OpenPacket | { problem: string } {
  const belong = new Set(papersOf(record));
  const papers = new Map<string, ZipFile>();
  for (const file of zip.files.filter(({ name, bytes }) => name.startsWith(PAPERS_PATH) && bytes > 0)) {
    const content = file.bytes > MOST_PAPER_BYTES ? undefined : zip.read(file);
    const hash = content && sha256(content);
    if (!content || hash === undefined || !belong.has(hash))
      return {
        problem: `Cannot take packet: ${file.name} is not the paper that was put in: its hash does not fit`,
      };
    if (paperType(content) === undefined)
      return {
        problem: `Cannot take packet: ${file.name} is no kind of paper that is kept, whatever its name says`,
      };
    papers.set(hash, file);
  }
  return {
    record,
    papers: [...papers].map(([hash, file]) => ({ hash, read: () => zip.read(file) ?? new Uint8Array() })),
    missing: [...belong].filter((hash) => !papers.has(hash)),
  };
}
