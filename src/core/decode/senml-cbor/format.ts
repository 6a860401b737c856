/** SenML in CBOR (RFC 8428, section 6). */
import { readRecords } from '../senml/pack.ts';
import type { WireFormat } from '../wire-format.ts';
import { readCbor } from './cbor-bytes.ts';

/** No JSON text starts with such a byte; every CBOR array does. */
const MIN_FIRST_BYTE = 0x80;

export const senmlCbor: WireFormat = {
  contentType: 'application/senml+cbor',
  recognizes: (bytes) => bytes[0]! >= MIN_FIRST_BYTE,
  read: (source) => readRecords(source, readCbor(source.bytes)),
};
