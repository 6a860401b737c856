/**
 * The packet of a well: the page, the record, tables and papers in one ZIP; and a packet that came,
 * opened and checked. The page alone is a packet too, without papers.
 */
import { strFromU8, strToU8 } from 'fflate';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { MAX_EXPORT_BYTES, MAX_DOCUMENT_BYTES, MAX_RECORD_BYTES } from '../../../shared/entries/limits.ts';
import { detectMediaType } from '../documents/media-type.ts';
import { cyclesCsv, daysCsv, entriesCsv } from './tables.ts';
import { extractRecord } from './zip/embed.ts';
import { exportPage } from './page.tsx';
import { documentFileName, DOCUMENTS_PATH } from './document-names.ts';
import { readRecord } from './read-record.ts';
import { documentsIn, serializeRecord, type Sha256, type WellRecord } from './record.ts';
import { openZip, zipChunks, type OpenedZip, type ZipEntry, type ZipWork } from './zip/zip.ts';
import type { ZipFile } from './zip/zip-directory.ts';
import { importing } from '../texts.ts';

export interface ExportSource {
  record: WellRecord;
  units?: UnitSystem;
  /** How the page looks (CSS). */
  style: string;
  sha256: Sha256;
  hasDocument: (hash: string) => boolean;
  readDocument: (hash: string) => Uint8Array;
}

const RECORD_FILE = 'record.ndjson';

export function buildExportPage(source: ExportSource): string {
  return renderPage(source, serializeRecord(source.record, source.sha256));
}

function renderPage({ record, units, style, hasDocument }: ExportSource, text: string): string {
  const availableDocuments = new Set(documentsIn(record).filter(hasDocument));
  return exportPage({ record, text, style, availableDocuments, ...(units !== undefined && { units }) });
}

/** The ZIP in pieces. */
export function buildExportZip(source: ExportSource): Generator<Uint8Array> {
  return zipChunks(exportFiles(source));
}

function* exportFiles(source: ExportSource): Generator<ZipEntry> {
  const { record, hasDocument, readDocument } = source;
  const text = serializeRecord(record, source.sha256);
  const written = (name: string, content: () => string): ZipEntry => ({
    name,
    bytes: () => strToU8(content()),
    compression: 'deflate',
  });
  yield written(`${record.well}.html`, () => renderPage(source, text));
  yield written(RECORD_FILE, () => text);
  yield written('cycles.csv', () => cyclesCsv(record));
  yield written('days.csv', () => daysCsv(record));
  yield written('entries.csv', () => entriesCsv(record));
  for (const hash of documentsIn(record).filter(hasDocument))
    yield {
      name: documentFileName(hash, record.entries),
      bytes: () => readDocument(hash),
      compression: 'store',
    };
}

export interface OpenedExport {
  record: WellRecord;
  /** Those that came, each whole and of a kind that is kept. */
  documents: { hash: string; read: () => Uint8Array }[];
  /** Hashes of papers that belong to the record and did not come. */
  missing: string[];
}

/** Never throws. The problem is one sentence. `work` counts what a ZIP cost to open. */
export function openExport(
  bytes: Uint8Array,
  sha256: Sha256,
  work?: ZipWork,
): OpenedExport | { problem: string } {
  if (bytes.length > MAX_EXPORT_BYTES)
    return { problem: importing().cannot(importing().tooLarge(MAX_EXPORT_BYTES / 2 ** 20)) };
  return isZip(bytes) ? openExportZip(bytes, sha256, work) : openPage(bytes, sha256);
}

/** APPNOTE 4.3.7: a local file header begins a ZIP that holds anything. */
function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

function openPage(bytes: Uint8Array, sha256: Sha256): OpenedExport | { problem: string } {
  const text = extractRecord(strFromU8(bytes), MAX_RECORD_BYTES);
  if (text === undefined) return { problem: importing().cannot(importing().isNoExport) };
  const read = readRecord(text, sha256);
  return 'problem' in read ? read : { record: read.record, documents: [], missing: documentsIn(read.record) };
}

function openExportZip(
  bytes: Uint8Array,
  sha256: Sha256,
  work?: ZipWork,
): OpenedExport | { problem: string } {
  const zip = openZip(bytes, work);
  if ('problem' in zip) return { problem: importing().cannot(zip.problem) };
  const listed = zip.files.find(({ name }) => name === RECORD_FILE);
  if (!listed) return { problem: importing().cannot(importing().noRecord(RECORD_FILE)) };
  if (listed.bytes > MAX_RECORD_BYTES)
    return { problem: importing().cannot(importing().recordTooLarge(MAX_RECORD_BYTES / 2 ** 20)) };
  const text = zip.read(listed);
  if (!text) return { problem: importing().cannot(importing().zipIncomplete) };
  const read = readRecord(strFromU8(text), sha256);
  return 'problem' in read ? read : addDocuments(zip, read.record, sha256);
}

/**
 * A paper is known by the hash of its bytes and by nothing else: what its file is called leads
 * nowhere.
 */
function addDocuments(
  zip: OpenedZip,
  record: WellRecord,
  sha256: Sha256,
): OpenedExport | { problem: string } {
  const belong = new Set(documentsIn(record));
  const papers = new Map<string, ZipFile>();
  for (const file of zip.files.filter(({ name, bytes }) => name.startsWith(DOCUMENTS_PATH) && bytes > 0)) {
    const content = file.bytes > MAX_DOCUMENT_BYTES ? undefined : zip.read(file);
    const hash = content && sha256(content);
    if (!content || hash === undefined || !belong.has(hash))
      return {
        problem: importing().cannot(importing().otherDocument(file.name)),
      };
    if (detectMediaType(content) === undefined)
      return {
        problem: importing().cannot(importing().documentKind(file.name)),
      };
    papers.set(hash, file);
  }
  return {
    record,
    documents: [...papers].map(([hash, file]) => ({ hash, read: () => zip.read(file) ?? new Uint8Array() })),
    missing: [...belong].filter((hash) => !papers.has(hash)),
  };
}
