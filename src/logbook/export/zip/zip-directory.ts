/**
 * The list of files at the end of a ZIP (PKWARE APPNOTE 6.3.10, 4.3.12 and 4.3.16), read entry by
 * entry for as long as entries are really there: a count is only a claim. ZIP64 is refused: a file
 * of at most 512 MiB and 10,000 entries never needs it.
 */
import { strFromU8 } from 'fflate';

export interface ZipFile {
  name: string;
  /** Unpacked, as the list says. */
  bytes: number;
  packedBytes: number;
  /** 0 stored, 8 deflated. */
  method: number;
  /** Where its local header begins. */
  at: number;
}

const END = 0x06054b50;
const END_BYTES = 22;
/** The comment behind the end has two bytes for its length. */
const LONGEST_COMMENT = 0xffff;
const FILE = 0x02014b50;
const FILE_BYTES = 46;
const LOCAL = 0x04034b50;
const LOCAL_BYTES = 30;
/** Bit 11 of the flags: the name is UTF-8. */
const IS_UTF8 = 0x800;

/** Each file in turn; ends early by throwing where the list is not whole. @throws RangeError */
export function* filesInZip(bytes: Uint8Array): Generator<ZipFile> {
  const view = viewOf(bytes);
  const end = endOf(view);
  const claimed = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  for (let n = 0; n < claimed; n++) {
    if (view.getUint32(at, true) !== FILE) throw new RangeError('Cannot read ZIP: its list is not whole');
    const lengths = [28, 30, 32].map((field) => view.getUint16(at + field, true));
    const name = bytes.subarray(at + FILE_BYTES, at + FILE_BYTES + lengths[0]!);
    yield {
      name: strFromU8(name, (view.getUint16(at + 8, true) & IS_UTF8) === 0),
      method: view.getUint16(at + 10, true),
      packedBytes: view.getUint32(at + 20, true),
      bytes: view.getUint32(at + 24, true),
      at: view.getUint32(at + 42, true),
    };
    at += FILE_BYTES + lengths.reduce((sum, length) => sum + length, 0);
  }
}

/** The packed bytes of one file; undefined if they are not there. */
export function packedOf(bytes: Uint8Array, { at, packedBytes }: ZipFile): Uint8Array | undefined {
  const view = viewOf(bytes);
  if (at + LOCAL_BYTES > bytes.length || view.getUint32(at, true) !== LOCAL) return undefined;
  const from = at + LOCAL_BYTES + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  return from + packedBytes > bytes.length ? undefined : bytes.subarray(from, from + packedBytes);
}

function endOf(view: DataView): number {
  const last = view.byteLength - END_BYTES;
  for (let at = last; at >= Math.max(0, last - LONGEST_COMMENT); at--)
    if (view.getUint32(at, true) === END) return at;
  throw new RangeError('Cannot read ZIP: its end is missing');
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
