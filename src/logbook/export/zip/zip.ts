/**
 * ZIP files (PKWARE APPNOTE 6.3.10) that are the same bytes for the same content: files in the
 * order given, one fixed time, one level of compression by a library of plain JavaScript, so that
 * neither machine nor Node version shows. Written a file at a time, so that of all the papers only
 * one lies in memory. Opened with every size checked before anything is unpacked, and unpacked by
 * entry: a name leads to nothing, and each entry is gone through once.
 */
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { MAX_EXPORT_BYTES } from '../../../../shared/entries/limits.ts';
import { inflateExactly } from '../inflate.ts';
import { filesInZip, packedOf, type ZipFile } from './zip-directory.ts';
import { importing } from '../../texts.ts';

export interface ZipEntry {
  name: string;
  /** Called when its turn comes. */
  bytes: () => Uint8Array;
  /** Photos and PDFs are compressed already. */
  compression: 'deflate' | 'store';
}

/**
 * The first day that a ZIP can say. Made as local time, and read as local time by the library: the
 * same everywhere.
 */
const fixedDate = (): Date => new Date(1980, 0, 1, 12);
/** The library's usual: a well-year of cycles in under a second. */
const LEVEL = 6;

/** The file in pieces. */
export function* zipChunks(entries: Iterable<ZipEntry>): Generator<Uint8Array> {
  const pieces: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    pieces.push(piece);
  });
  for (const { name, bytes, compression } of entries) {
    const file = compression === 'store' ? new ZipPassThrough(name) : new ZipDeflate(name, { level: LEVEL });
    file.mtime = fixedDate();
    zip.add(file);
    file.push(bytes(), true);
    yield* pieces.splice(0);
  }
  zip.end();
  yield* pieces.splice(0);
}

export interface OpenedZip {
  files: readonly ZipFile[];
  /** Unpacks one file. Undefined if it is not whole, or has not the size that the list says. */
  read(file: ZipFile): Uint8Array | undefined;
}

/** What opening has cost: kept low by the limits below, whatever the file claims. */
export interface ZipWork {
  /** Entries of the list that were read. */
  entries: number;
  unpackedBytes: number;
}

/** Far more than the papers of any well. */
export const MAX_FILES = 10_000;
const STORED = 0;
const DEFLATED = 8;

/** What is in it; nothing is unpacked yet. The problem is the second half of a sentence. */
export function openZip(
  bytes: Uint8Array,
  work: ZipWork = { entries: 0, unpackedBytes: 0 },
): OpenedZip | { problem: string } {
  const files = listOf(bytes, work);
  return 'problem' in files ? files : { files, read: (file) => unpack(bytes, file, work) };
}

function listOf(bytes: Uint8Array, work: ZipWork): ZipFile[] | { problem: string } {
  const files: ZipFile[] = [];
  const names = new Set<string>();
  let sum = 0;
  try {
    for (const file of filesInZip(bytes)) {
      work.entries += 1;
      sum += file.bytes;
      if (files.length === MAX_FILES) return { problem: importing().tooManyFiles(MAX_FILES) };
      if (names.has(file.name)) return { problem: importing().twoFiles(formatName(file.name)) };
      if (sum > MAX_EXPORT_BYTES)
        return { problem: importing().unpackedTooLarge(MAX_EXPORT_BYTES / 2 ** 20) };
      names.add(file.name);
      files.push(file);
    }
  } catch (error) {
    if (error instanceof RangeError) return { problem: importing().zipIncomplete };
    throw error;
  }
  return files;
}

/** A name comes from outside and may be 64 KiB of anything. */
function formatName(name: string): string {
  return JSON.stringify(name.length > 80 ? `${name.slice(0, 80)}…` : name);
}

function unpack(bytes: Uint8Array, file: ZipFile, work: ZipWork): Uint8Array | undefined {
  const packed = packedOf(bytes, file);
  if (!packed) return undefined;
  work.unpackedBytes += file.bytes;
  if (file.method === DEFLATED) return inflateExactly(packed, file.bytes);
  return file.method === STORED && packed.length === file.bytes ? packed.slice() : undefined;
}
