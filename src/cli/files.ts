/** Files that people name: read whole, or made anew. A file that exists is never overwritten. */
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { fileError, systemReason } from '../../shared/text/en/system-reasons.ts';
import { UsageError } from './command.ts';

/** @throws UsageError if there is no such file, it is a folder, or it is larger than `maxBytes`. */
export function readInput(path: string, maxBytes: number): Uint8Array {
  try {
    const stat = statSync(path);
    if (!stat.isFile() && !stat.isFIFO()) throw new UsageError(`Cannot read ${path}: it must be a file`);
    if (stat.size > maxBytes)
      throw new UsageError(
        `Cannot read ${path}: it may have ${maxBytes / 2 ** 20} MiB at most: ${(stat.size / 2 ** 20).toFixed(1)} MiB`,
      );
    return readFileSync(path);
  } catch (cause) {
    if (cause instanceof UsageError || systemReason(cause) === undefined) throw cause;
    throw new UsageError(fileError('read', path, cause).message, { cause });
  }
}

/** UTF-8 text. @throws UsageError as `readInput`, and for text in another encoding. */
export function readInputText(path: string, maxBytes: number): string {
  const bytes = readInput(path, maxBytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    throw new UsageError(`Cannot read ${path}: it must be UTF-8. Save it as "CSV UTF-8"`, { cause });
  }
}

/** Before long work is done for a file. @throws UsageError */
export function requireNewFile(path: string): void {
  if (existsSync(path)) throw new UsageError(`Cannot write ${path}: it exists already. Choose another name`);
}

/** @throws Error with one sentence. */
export function writeNewFile(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content, { flag: 'wx' });
  } catch (cause) {
    throw fileError('write', path, cause);
  }
}
