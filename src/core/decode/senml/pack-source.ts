/**
 * Where a pack's bytes came from: what its two readers (./pack.ts, ./scan-pack.ts) are asked with.
 */
import type { Pack } from '../messages.ts';

export interface PackSource {
  node: string;
  kind: Pack['kind'];
  bytes: Uint8Array;
  /** MQTT 5 content type, where there is one. */
  contentType?: string;
}
