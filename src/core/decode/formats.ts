/**
 * The formats of packs, in the order in which their bytes are tried. The last one takes what no
 * other recognizes, and says in its own words what is wrong with it.
 */
import { MAX_RECORDS } from './limits.ts';
import type { Pack, Refusal } from './messages.ts';
import { refuse } from './refuse.ts';
import { senmlCbor } from './senml-cbor/format.ts';
import { senmlJson } from './senml-json/format.ts';
import type { PackSource, WireFormat } from './wire-format.ts';

const FORMATS: readonly WireFormat[] = [senmlCbor, senmlJson];

/** Reads a pack from bytes. Never throws for any bytes. */
export function readPack(source: PackSource): Pack | Refusal {
  if (source.bytes.length === 0) {
    return refuse('empty', 'pack-no-bytes', { max: MAX_RECORDS });
  }
  return formatOf(source).read(source);
}

function formatOf({ bytes, contentType }: PackSource): WireFormat {
  const type = contentType?.split(';', 1)[0]!.trim().toLowerCase();
  return (
    FORMATS.find((format) => format.contentType === type) ??
    FORMATS.find((format) => format.recognizes(bytes)) ??
    FORMATS.at(-1)!
  );
}
