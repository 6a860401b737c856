import { defineConfig } from 'vitest/config';
import { fileURLToPath } from 'node:url';

/**
 * Nothing in a test may depend on how fast the machine is: the limits below only end what hangs.
 */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
  },
});
