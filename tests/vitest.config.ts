import { defineConfig } from 'vitest/config';
import { fileURLToPath } from 'node:url';

/**
 * Stations without I/O: no module of theirs holds state, and no test of theirs changes the process.
 */
const PURE = ['core', 'shared', 'logbook'].map((folder) => `tests/${folder}/**/*.test.ts`);
const ALL = ['tests/**/*.test.ts'];

/**
 * Nothing in a test may depend on how fast the machine is: the limits below only end what hangs.
 *
 * Pure test files of one worker share its modules: loading them again for each of a hundred files
 * takes longer than most of them run. Every other file has its own.
 */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      { extends: true, test: { name: 'all else', include: ALL, exclude: PURE } },
    ],
  },
});
