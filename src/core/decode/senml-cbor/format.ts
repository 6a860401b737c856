/**
 * SenML in CBOR (RFC 8428, section 6). The usual shape of a pack goes through ./scan-pack.ts; all
 * else, and every refusal, through a decoder that knows all of CBOR.
 */
import type { Pack, Refusal } from '../messages.ts';
import { readRecords } from '../senml/pack.ts';
import type { PackSource, WireFormat } from '../wire-format.ts';
import { readCbor } from './cbor-bytes.ts';
import { scanPack } from './scan-pack.ts';

/** No JSON text starts with such a byte; every CBOR array does. */
const MIN_FIRST_BYTE = 0x80;

export const senmlCbor: WireFormat = {
  contentType: 'application/senml+cbor',
  recognizes: (bytes) => bytes[0]! >= MIN_FIRST_BYTE,
  read: (source) => scanPack(source) ?? parsePackGeneric(source),
};

/** Reads any CBOR pack through the decoder; what ./scan-pack.ts reads is equal to this. */
export function parsePackGeneric(source: PackSource): Pack | Refusal {
  return readRecords(source, readCbor(source.bytes));
}
