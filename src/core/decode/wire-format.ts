/**
 * A way to write a pack as bytes. Each has a folder with its reader and, for simulated wells and
 * tests, its writer; ./formats.ts lists them.
 */
import type { Pack, Refusal } from './messages.ts';

export interface PackSource {
  node: string;
  kind: Pack['kind'];
  bytes: Uint8Array;
  /** MQTT 5 content type, where there is one. */
  contentType?: string;
}

export interface WireFormat {
  /** The MQTT 5 content type that names it; it says more than what the bytes look like. */
  contentType: string;
  /** Without a known content type: can these bytes, one at least, be of this format? */
  recognizes(bytes: Uint8Array): boolean;
  /** Never throws for any bytes. */
  read(source: PackSource): Pack | Refusal;
}
