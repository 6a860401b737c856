import { defineConfig } from 'vitest/config';
import { fileURLToPath } from 'node:url';

/**
 * Nothing in a test may depend on how fast the machine is: the limits below only end what hangs.
 *
 * Files of one worker share its modules (`isolate: false`): loading the same modules again for each
 * of three hundred files takes longer than most of them run. So no module holds state that a test
 * changes, and a test that changes something of the process puts it back.
 */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    isolate: false,
  },
});
