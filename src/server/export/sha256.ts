/** SHA-256 in hex (FIPS 180-4), as records and papers are known by it. */
import { createHash } from 'node:crypto';

export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
