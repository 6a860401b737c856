import { defineConfig } from 'vitest/config';
import config from './vitest.config.ts';

/** `npm run long`: the files that have a long form (tests/support/depth.ts), in that form. */
export default defineConfig({
  ...config,
  test: {
    ...config.test,
    projects: undefined,
    include: ['tests/sim/*.test.ts', 'tests/core/alarms/flood.test.ts', 'tests/browser/pages.test.ts'],
    env: { STILLWELL_LONG: '1' },
  },
});
