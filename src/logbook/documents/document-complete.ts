/**
 * Whether a paper came whole: a photo whose upload broke off looks like one at its beginning. Each
 * format says where it ends (PDF: ISO 32000-1, 7.5.5, and its note H.3.18 that readers look for the
 * mark in the last 1,024 bytes; PNG: ISO/IEC 15948, 11.2.5; JPEG: ISO/IEC 10918-1, B.1.1; WebP: RFC
 * 9649, 2.3; HEIF: boxes of ISO/IEC 14496-12, 4.2). What stands after the end is let be: telephones
 * put short films there.
 */
import type { DocumentMediaType } from './media-type.ts';

export function isComplete(bytes: Uint8Array, type: DocumentMediaType): boolean {
  return IS_COMPLETE[type](bytes);
}

const IS_COMPLETE: Record<DocumentMediaType, (bytes: Uint8Array) => boolean> = {
  'application/pdf': (bytes) => containsText(bytes.subarray(-PDF_END_BYTES), '%%EOF'),
  'image/png': (bytes) => isPngComplete(bytes),
  'image/jpeg': (bytes) => isJpegComplete(bytes),
  'image/webp': (bytes) => bytes.length >= 12 && view(bytes).getUint32(4, true) + 8 <= bytes.length,
  'image/heic': (bytes) => areBoxesComplete(bytes),
  // A text may end anywhere.
  'text/plain': () => true,
};

const PDF_END_BYTES = 1_024;

function view(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function containsText(bytes: Uint8Array, mark: string): boolean {
  return new TextDecoder('latin1').decode(bytes).includes(mark);
}

/** "IEND". Compared as a number: 25 MiB may be two million empty chunks. */
const IEND = 0x49454e44;

/** Chunk after chunk (length, name, data, sum) up to the one that ends it. */
function isPngComplete(bytes: Uint8Array): boolean {
  const numbers = view(bytes);
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = numbers.getUint32(at);
    const isEnd = numbers.getUint32(at + 4) === IEND;
    at += length + 12;
    if (isEnd) return at <= bytes.length;
  }
  return false;
}

const [SCAN, END, RESTART_FIRST, RESTART_LAST] = [0xda, 0xd9, 0xd0, 0xd7];

/**
 * Segment after segment. Those before the scan may hold a small picture of their own with its own
 * end, and are passed over by their length; in a scan a mark is what follows FF and is neither
 * nought nor a restart.
 */
function isJpegComplete(bytes: Uint8Array): boolean {
  let inScan = false;
  for (let at = 2; at + 1 < bytes.length;) {
    const mark = bytes[at + 1]!;
    if (bytes[at] !== 0xff || mark === 0xff || (inScan && (mark === 0 || isRestart(mark)))) {
      at += bytes[at] === 0xff && mark !== 0xff ? 2 : 1;
      continue;
    }
    if (mark === END) return true;
    inScan = mark === SCAN;
    at += 2 + ((bytes[at + 2] ?? 0) << 8) + (bytes[at + 3] ?? 0);
  }
  return false;
}

function isRestart(mark: number): boolean {
  return mark >= RESTART_FIRST && mark <= RESTART_LAST;
}

/**
 * Box after box to the end of the file; a length of nought is the rest, of one says that the length
 * follows in eight bytes.
 */
function areBoxesComplete(bytes: Uint8Array): boolean {
  const numbers = view(bytes);
  let at = 0;
  while (at + 8 <= bytes.length) {
    const short = numbers.getUint32(at);
    if (short === 0) return true;
    if (short === 1 && at + 16 > bytes.length) return false;
    const length = short === 1 ? Number(numbers.getBigUint64(at + 8)) : short;
    if (length < 8) return false;
    at += length;
  }
  return at === bytes.length;
}
