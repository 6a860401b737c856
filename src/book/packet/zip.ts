/**
 * ZIP files (PKWARE APPNOTE 6.3.10) that are the same bytes for the same content: files in the order given, one fixed time, one level of
 * compression by a library of plain JavaScript, so that neither machine nor Node version shows. Written a file at a time, so that of all
 * the papers only one lies in memory. Opened with every size checked before anything is unpacked.
 */
import { unzipSync, Zip, ZipDeflate, ZipPassThrough } from 'fflate';

export interface ZipEntry {
  name: string;
  /** Called when its turn comes. */
  bytes: () => Uint8Array;
  /** Photos and PDFs are compressed already. */
  as: 'deflated' | 'stored';
}

/** The first day that a ZIP can say. Made as local time, and read as local time by the library: the same everywhere. */
const fixedTime = (): Date => new Date(1980, 0, 1, 12);
/** The library's usual: a well-year of cycles in under a second. */
const LEVEL = 6;

/** The file in pieces. */
export function* zipPieces(entries: Iterable<ZipEntry>): Generator<Uint8Array> {
  const pieces: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    pieces.push(piece);
  });
  for (const { name, bytes, as } of entries) {
    const file = as === 'stored' ? new ZipPassThrough(name) : new ZipDeflate(name, { level: LEVEL });
    file.mtime = fixedTime();
    zip.add(file);
    file.push(bytes(), true);
    yield* pieces.splice(0);
  }
  zip.end();
  yield* pieces.splice(0);
}

export interface OpenZip {
  files: { name: string; bytes: number }[];
  /** Undefined where there is no such file, or it has not the size that the list says. */
  read(name: string): Uint8Array | undefined;
}

/** Far more than the papers of any well. */
const MOST_FILES = 10_000;

/** What is in it; nothing is unpacked yet. Undefined where it is no whole ZIP. */
export function openZip(bytes: Uint8Array): OpenZip | undefined {
  const files: OpenZip['files'] = [];
  const listed = tryUnzip(bytes, (name, size) => {
    if (files.length <= MOST_FILES) files.push({ name, bytes: size });
    return false;
  });
  if (!listed || files.length > MOST_FILES) return undefined;
  return { files, read: (name) => tryUnzip(bytes, (one) => one === name)?.get(name) };
}

function tryUnzip(
  bytes: Uint8Array,
  wants: (name: string, size: number) => boolean,
): Map<string, Uint8Array> | undefined {
  try {
    const found = unzipSync(bytes, { filter: ({ name, originalSize }) => wants(name, originalSize) });
    return new Map(Object.entries(found));
  } catch {
    return undefined;
  }
}
