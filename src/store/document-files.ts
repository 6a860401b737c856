/**
 * Papers beside the database, each under the hash of its content: the same paper kept twice is one
 * file, and a name that somebody gave it is never a path. A file is written whole under another
 * name, brought to the disk, and then renamed; its folder is brought there too, for the entry that
 * points to it is on the disk when it is answered. Half of one is never found, and one that went
 * bad is mended when the same paper is kept again.
 */
import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { isDocumentHash } from '../core/domain/document-hash.ts';
import { makePrivateFolder, openNewFile } from './private-files.ts';
import { StoreError } from './store-error.ts';
import { texts } from './texts.ts';

export interface DocumentFiles {
  /** Keeps the bytes; returns their hash (SHA-256, hex). */
  put(bytes: Uint8Array): string;
  has(hash: string): boolean;
  /** Whether it is there and is what its name says. */
  isIntact(hash: string): boolean;
  /**
   * The bytes, or undefined where there is no such paper. @throws StoreError where the file is not
   * what its name says.
   */
  read(hash: string): Buffer | undefined;
}

/** `folder` is made when the first paper comes. */
export function openDocuments(folder: string): DocumentFiles {
  const pathOf = (hash: string): string => {
    if (!isDocumentHash(hash)) throw new RangeError('Cannot find a paper: its hash must be SHA-256 in hex');
    return join(folder, hash.slice(0, 2), hash);
  };
  const read = (hash: string): Buffer | undefined => {
    const path = pathOf(hash);
    if (!existsSync(path)) return undefined;
    const bytes = readFileSync(path);
    if (hashOf(bytes) === hash) return bytes;
    throw new StoreError('damaged', texts().cannotReadDocument(hash.slice(0, 12)));
  };
  const isSound = (hash: string): boolean => {
    const path = pathOf(hash);
    return existsSync(path) && hashOf(readFileSync(path)) === hash;
  };
  return {
    put(bytes) {
      const hash = hashOf(bytes);
      if (!isSound(hash)) {
        writeAtomically(join(folder, hash.slice(0, 2)), hash, bytes);
        syncFolder(folder);
      }
      return hash;
    },
    has: (hash) => existsSync(pathOf(hash)),
    isIntact: isSound,
    read,
  };
}

function hashOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function writeAtomically(folder: string, name: string, bytes: Uint8Array): void {
  makePrivateFolder(folder);
  const waiting = join(folder, `${name}.part`);
  const file = openNewFile(waiting);
  try {
    let at = 0;
    while (at < bytes.length) at += writeSync(file, bytes, at);
    fsyncSync(file);
  } catch (error) {
    rmSync(waiting, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
  renameSync(waiting, join(folder, name));
  syncFolder(folder);
}

/**
 * What a folder holds is known after a power cut only where the folder itself was brought to the
 * disk.
 */
function syncFolder(folder: string): void {
  // Windows opens no folder, and needs none of it.
  if (process.platform === 'win32') return;
  const open = openSync(folder, 'r');
  try {
    fsyncSync(open);
  } finally {
    closeSync(open);
  }
}
