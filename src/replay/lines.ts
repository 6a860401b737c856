/**
 * A recording as lines of bytes: from a file, from stdin (`-`), packed with gzip or not. Known by
 * its first bytes, not by its name.
 */
import { createReadStream } from 'node:fs';
import { createGunzip } from 'node:zlib';
import type { Readable } from 'node:stream';
import { texts } from './texts.ts';

/**
 * The largest payload as JSON text with every byte escaped is 0.75 MiB; what is longer is no
 * message.
 */
const MAX_LINE_BYTES = 1 << 20;
const CHUNK_BYTES = 1 << 18;
const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;

export interface LineBatch {
  lines: Uint8Array[];
  /** Bytes of the file read so far, as they are on disk. */
  readBytes: number;
  /** Lines of this batch that were too long, and left out. */
  tooLong: number;
}

/** Opens a recording. Errors of the file come out of the iteration. */
export function readLines(path: string, stdin: Readable): AsyncGenerator<LineBatch> {
  return linesOf(path === '-' ? stdin : createReadStream(path, { highWaterMark: CHUNK_BYTES }));
}

async function* linesOf(source: Readable): AsyncGenerator<LineBatch> {
  const count = { readBytes: 0 };
  let rest: Buffer = Buffer.alloc(0);
  let skipping = false;
  for await (const chunk of decompressed(source, count)) {
    const batch: LineBatch = { lines: [], readBytes: count.readBytes, tooLong: 0 };
    let from = 0;
    for (let end = chunk.indexOf(LINE_FEED); end >= 0; end = chunk.indexOf(LINE_FEED, from)) {
      const part = chunk.subarray(from, end);
      from = end + 1;
      if (skipping) skipping = false;
      else batch.lines.push(trimmed(rest.length > 0 ? Buffer.concat([rest, part]) : part));
      rest = Buffer.alloc(0);
    }
    if (!skipping) rest = Buffer.concat([rest, chunk.subarray(from)]);
    if (rest.length > MAX_LINE_BYTES) {
      rest = Buffer.alloc(0);
      skipping = true;
      batch.tooLong++;
    }
    yield batch;
  }
  if (rest.length > 0) yield { lines: [trimmed(rest)], readBytes: count.readBytes, tooLong: 0 };
}

function trimmed(line: Buffer): Buffer {
  return line.at(-1) === CARRIAGE_RETURN ? line.subarray(0, -1) : line;
}

/** The bytes as they were before gzip. */
async function* decompressed(source: Readable, count: { readBytes: number }): AsyncGenerator<Buffer> {
  const chunks = counted(source, count);
  const first = await chunks.next();
  if (first.done) return;
  if (first.value[0] !== 0x1f || first.value[1] !== 0x8b) {
    yield first.value;
    yield* chunks;
    return;
  }
  const gunzip = createGunzip({ chunkSize: CHUNK_BYTES });
  const feeding = feedGunzip(gunzip, first.value, chunks);
  try {
    for await (const chunk of gunzip) yield asBuffer(chunk);
    await feeding;
  } finally {
    gunzip.destroy();
    await feeding;
  }
}

/** Writes all chunks into the unpacker; its own errors come out where it is read. */
async function feedGunzip(
  gunzip: ReturnType<typeof createGunzip>,
  first: Buffer,
  chunks: AsyncGenerator<Buffer>,
): Promise<void> {
  try {
    await write(gunzip, first);
    for await (const chunk of chunks) {
      if (gunzip.destroyed) return;
      await write(gunzip, chunk);
    }
    gunzip.end();
  } catch (error) {
    gunzip.destroy(error instanceof Error ? error : new Error(String(error)));
  }
}

function write(gunzip: ReturnType<typeof createGunzip>, chunk: Buffer): Promise<void> {
  return new Promise((resolve) => {
    if (gunzip.destroyed) resolve();
    else gunzip.write(chunk, () => resolve());
  });
}

async function* counted(source: Readable, count: { readBytes: number }): AsyncGenerator<Buffer> {
  for await (const chunk of source) {
    const bytes = asBuffer(chunk);
    count.readBytes += bytes.length;
    yield bytes;
  }
}

function asBuffer(chunk: unknown): Buffer {
  if (Buffer.isBuffer(chunk)) return chunk;
  if (typeof chunk === 'string') return Buffer.from(chunk);
  throw new TypeError(texts().streamGivesNeitherBytesNor);
}
