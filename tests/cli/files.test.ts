/**
 * Paths that cannot be used: each is told in a sentence with what helps, and none keeps the program
 * waiting.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { errorSentence } from '../../src/cli/error-sentence.ts';
import { readInput, readInputText, requireNewFile, writeNewFile } from '../../src/cli/files.ts';
import { makePrivateFolder } from '../../src/store/private-files.ts';
import { folder } from './program.ts';

let here: ReturnType<typeof folder>;
beforeEach(() => {
  here = folder();
  mkdirSync(at('folder'));
  writeFileSync(at('file'), 'four');
});
afterEach(() => here.remove());
const at = (...parts: string[]): string => join(here.path, ...parts);

describe('files that people name', () => {
  it.each<[does: string, work: () => unknown, says: RegExp]>([
    [
      'no file to read',
      () => readInput(at('none'), 9),
      /^Cannot read .*none: there is no such file or folder/,
    ],
    ['a folder to read', () => readInput(at('folder'), 9), /^Cannot read .*folder: it must be a file$/],
    ['a path through a file', () => readInput(at('file', 'x'), 9), /a part of the path is a file/],
    ['a file too large', () => readInput(at('file'), 3), /^Cannot read .*file: it must be at most .* MiB/],
    ['a folder to write', () => writeNewFile(at('folder'), ''), /^Cannot write .*folder: it already exists/],
    ['no folder to write in', () => writeNewFile(at('none', 'x'), ''), /^Cannot write .*x: there is no such/],
    ['a file that exists', () => requireNewFile(at('file')), /^Cannot write .*file: it already exists/],
    ['a file as a data folder', () => makePrivateFolder(at('file')), /there is a file of this name/],
    [
      'a data folder in a file',
      () => makePrivateFolder(at('file', 'x')),
      /^Cannot make the folder .*x: a part/,
    ],
  ])('%s', (_, work, says) => {
    expect(work).toThrow(says);
  });

  it('reads what is there, as UTF-8', () => {
    expect(readInputText(at('file'), 4)).toBe('four');
  });

  // Linux keeps a file system there that takes no folders, and Node's own `recursive` never
  // returned from it.
  it.runIf(process.platform === 'linux')('a data folder under /proc is refused, and not waited for', () => {
    expect(() => makePrivateFolder('/proc/stillwell/data')).toThrow(/^Cannot make the folder \/proc/);
  });
});

describe('errorSentence', () => {
  it.each([
    [
      Object.assign(new Error('ENOSPC: no space left on device, write'), {
        code: 'ENOSPC',
        syscall: 'write',
      }),
      'Cannot use: the disk is full. Make room and try again',
    ],
    [
      Object.assign(new Error('EACCES: open'), { code: 'EACCES', syscall: 'open', path: '/srv/x' }),
      'Cannot use /srv/x: your user has no permission. Change its permissions, or choose another path',
    ],
    [new Error('Cannot read card: well must be given'), 'Cannot read card: well must be given'],
    ['thrown text', 'thrown text'],
  ])('%s', (error, says) => {
    expect(errorSentence(error)).toBe(says);
  });
});
