/**
 * SenML in JSON (RFC 8428, section 5). The usual shape of a pack goes through ./scan-pack.ts, which
 * makes no objects; whatever that one does not know is read through JSON.parse, and every refusal
 * is made there.
 */
import type { Pack, Refusal } from '../messages.ts';
import { readJson } from '../json/json-bytes.ts';
import { readRecords } from '../senml/pack.ts';
import type { PackSource, WireFormat } from '../wire-format.ts';
import { scanPack } from './scan-pack.ts';

export const senmlJson: WireFormat = {
  contentType: 'application/senml+json',
  recognizes: () => true,
  read: (source) => scanPack(source) ?? parsePackGeneric(source),
};

/** Reads any JSON pack through JSON.parse; what ./scan-pack.ts reads is equal to this. */
export function parsePackGeneric(source: PackSource): Pack | Refusal {
  return readRecords(source, readJson(source.bytes));
}
