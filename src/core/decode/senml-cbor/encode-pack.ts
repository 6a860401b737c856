/**
 * A pack as SenML CBOR bytes, as a node sends it: integer labels, integers where the number is one,
 * else the shortest float that holds it exactly.
 */
import { encode } from 'cborg';
import { packRecords, type PackToSend } from '../senml/pack-records.ts';
import { CBOR_LABELS } from './cbor-labels.ts';

/** @throws RangeError for a channel that the contract doesn't know. */
export function encodePackCbor(pack: PackToSend): Uint8Array {
  const labels: Record<string, number> = CBOR_LABELS;
  const records = packRecords(pack).map(
    (record) => new Map(Object.entries(record).map(([name, value]) => [labels[name] ?? name, value])),
  );
  return encode(records, { mapSorter: () => 0 });
}
