/** Papers are pointed to by their content: SHA-256 (FIPS 180-4) in lower-case hex. */
export function isDocumentHash(value: unknown): value is string {
  return typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
}
