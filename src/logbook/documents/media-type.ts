/**
 * What a paper is, told by its first bytes and never by its name or by what somebody says that it
 * is: a program called `manual.pdf` is refused. The marks are those of the formats' own
 * specifications (PDF: ISO 32000-1, 7.5.2; PNG: ISO/IEC 15948, 5.2; JPEG: ISO/IEC 10918-1, B.1.1.3;
 * WebP: RFC 9649; HEIF: ISO/IEC 23008-12 with the box of ISO/IEC 14496-12).
 */
const MEDIA_TYPES = [
  'application/pdf',
  'image/png',
  'image/jpeg',
  'image/webp',
  'image/heic',
  'text/plain',
] as const;
export type DocumentMediaType = (typeof MEDIA_TYPES)[number];

/** Bytes that are looked through to see whether text is text. */
const TEXT_SAMPLE_BYTES = 1 << 16;

/** The type, or undefined where it is none that is kept. */
export function detectMediaType(bytes: Uint8Array): DocumentMediaType | undefined {
  if (startsWithBytes(bytes, 0, '%PDF-')) return 'application/pdf';
  if (startsWithBytes(bytes, 0, '\u0089PNG\r\n\u001a\n')) return 'image/png';
  if (startsWithBytes(bytes, 0, '\u00ff\u00d8\u00ff')) return 'image/jpeg';
  if (startsWithBytes(bytes, 0, 'RIFF') && startsWithBytes(bytes, 8, 'WEBP')) return 'image/webp';
  if (startsWithBytes(bytes, 4, 'ftyp') && HEIF_BRANDS.some((brand) => startsWithBytes(bytes, 8, brand)))
    return 'image/heic';
  return isText(bytes) ? 'text/plain' : undefined;
}

const HEIF_BRANDS = ['heic', 'heix', 'mif1', 'msf1'];

function startsWithBytes(bytes: Uint8Array, at: number, mark: string): boolean {
  for (let i = 0; i < mark.length; i++) if (bytes[at + i] !== mark.charCodeAt(i)) return false;
  return true;
}

/**
 * UTF-8 without control characters but line ends and tabs, and no page or program that a browser or
 * shell would run.
 */
function isText(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, TEXT_SAMPLE_BYTES);
  if (
    head.length === 0 ||
    head.some((byte) => byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) ||
    head.includes(0x7f)
  )
    return false;
  const text = new TextDecoder('utf-8').decode(head).trimStart().toLowerCase();
  const broken = text.includes('\ufffd') && head.length === bytes.length;
  return !broken && !text.startsWith('<') && !text.startsWith('#!');
}
