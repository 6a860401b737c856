/** Files that people name: read whole, or made anew. A file that exists is never overwritten. */
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { fileError, systemReason } from '../../shared/text/en/system-reasons.ts';
import { UsageError } from './command.ts';
import { texts } from './texts.ts';

/** @throws UsageError if there is no such file, it is a folder, or it is larger than `maxBytes`. */
export function readInput(path: string, maxBytes: number): Uint8Array {
  try {
    const stat = statSync(path);
    if (!stat.isFile() && !stat.isFIFO()) throw new UsageError(texts().itMustBeAFile(path));
    if (stat.size > maxBytes)
      throw new UsageError(
        texts().itMayHaveMibAt({
          path,
          maxBytes: maxBytes / 2 ** 20,
          value: (stat.size / 2 ** 20).toFixed(1),
        }),
      );
    return readFileSync(path);
  } catch (cause) {
    if (cause instanceof UsageError || systemReason(cause) === undefined) throw cause;
    throw new UsageError(fileError(texts().reading, path, cause).message, { cause });
  }
}

/** UTF-8 text. @throws UsageError as `readInput`, and for text in another encoding. */
export function readInputText(path: string, maxBytes: number): string {
  const bytes = readInput(path, maxBytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    throw new UsageError(texts().itMustBeUtfSave(path), { cause });
  }
}

/** Before long work is done for a file. @throws UsageError */
export function requireNewFile(path: string): void {
  if (existsSync(path)) throw new UsageError(texts().itExistsAlreadyChooseAnother(path));
}

/** @throws Error with one sentence. */
export function writeNewFile(path: string, content: string | Uint8Array): void {
  try {
    writeFileSync(path, content, { flag: 'wx' });
  } catch (cause) {
    throw fileError(texts().writing, path, cause);
  }
}
