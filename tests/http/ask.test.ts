import { describe, expect, test } from 'vitest';
import { readBytes } from '../../src/http/api-request.ts';

/**
 * A request whose body comes in the given parts, all written into one and the same memory, as a
 * network card does it.
 */
function inParts(parts: readonly string[], headers: Record<string, string> = {}): Request {
  const memory = new Uint8Array(64);
  let next = 0;
  const body = new ReadableStream<Uint8Array>(
    {
      pull(out) {
        const part = parts[next++];
        if (part === undefined) out.close();
        else out.enqueue(memory.subarray(0, new TextEncoder().encodeInto(part, memory).written));
      },
    },
    { highWaterMark: 0 },
  );
  const init = { method: 'POST', body, headers, duplex: 'half' };
  return new Request('http://localhost/', init);
}
const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('readBytes', () => {
  test('puts each part in its place as it comes, and holds none of them', async () => {
    const bytes = await readBytes(inParts(['one ', 'two ', 'three']), 100);
    expect(text(bytes)).toBe('one two three');
    // The buffer is just as long: it can be handed to another thread as it is.
    expect(bytes.buffer.byteLength).toBe(bytes.length);
  });

  test.each([
    ['no length is said', {}],
    ['a small length is said', { 'content-length': '900' }],
    ['a large length is said', { 'content-length': '99999999999' }],
    ['nonsense is said', { 'content-length': 'much' }],
  ])('takes no more than the limit, where %s', async (_, headers: Record<string, string>) => {
    expect(text(await readBytes(inParts(['12345', '67890'], headers), 10))).toBe('1234567890');
    await expect(readBytes(inParts(['12345', '67890', '1'], headers), 10)).rejects.toThrow('at most');
  });

  test('of nothing is nothing', async () => {
    expect(await readBytes(new Request('http://localhost/'), 10)).toHaveLength(0);
  });
});
