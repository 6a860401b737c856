import { defineConfig } from 'vitest/config';
import config from './vitest.config.ts';

const { projects: _each, ...test } = config.test ?? {};

/** `npm run long`: the files that have a long form (tests/support/depth.ts), in that form. */
export default defineConfig({
  ...config,
  test: {
    ...test,
    include: [
      'tests/sim/*.test.ts',
      'tests/core/alarms/flood.test.ts',
      'tests/browser/pages.test.ts',
      'tests/lab/sensitivity/run-sensitivity.test.ts',
    ],
    env: { STILLWELL_LONG: '1' },
  },
});
