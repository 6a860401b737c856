/**
 * What the operating system says by a code (errno(3)), as a sentence: what is wrong, and what
 * helps. Nobody is shown a bare code.
 */

/** By code: what is wrong with this path, and what helps. */
const REASONS: Record<string, string> = {
  ENOENT: 'there is no such file or folder. Check the path',
  EISDIR: 'it is a folder, and a file is needed. Name a file',
  ENOTDIR: 'a part of the path is a file, and a folder is needed. Name another path',
  EEXIST: 'it already exists. Choose another name',
  EACCES: 'your user has no permission. Change its permissions, or choose another path',
  EPERM: 'your user has no permission. Change its permissions, or choose another path',
  EROFS: 'the disk is read-only. Choose another path',
  ENOSPC: 'the disk is full. Make room and try again',
  EDQUOT: 'your disk quota is used up. Make room and try again',
  EFBIG: 'the file would be too large for this disk. Choose another disk',
  ENAMETOOLONG: 'the name is too long. Choose a shorter one',
  ELOOP: 'its links form a loop. Name the file itself',
  EMFILE: 'too many files are open. Close other programs and try again',
  ENFILE: 'too many files are open. Close other programs and try again',
  EBUSY: 'another program is using it. Close that program and try again',
  ETXTBSY: 'another program is using it. Close that program and try again',
  EIO: 'the disk does not read or write. Check the disk and its cable',
};

/** Why this could not be done; undefined if it was not the operating system that refused. */
export function systemReason(error: unknown): string | undefined {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return Object.hasOwn(REASONS, code) ? REASONS[code] : undefined;
}

/**
 * `Cannot read wells.csv: it is a folder …`; what is no error of the system keeps its own words.
 */
export function fileError(doing: string, path: string, cause: unknown): Error {
  const reason = systemReason(cause) ?? (cause instanceof Error ? cause.message : String(cause));
  const sentence = `Cannot ${doing} ${path}: ${reason}`;
  return new Error(sentence, { cause });
}
