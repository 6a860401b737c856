/** A pack as SenML JSON bytes, as a node sends it. */
import { packRecords, type PackToSend } from '../senml/pack-records.ts';

/** @throws RangeError for a channel that the contract doesn't know. */
export function encodePackJson(pack: PackToSend): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(packRecords(pack)));
}
