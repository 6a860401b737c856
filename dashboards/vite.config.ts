import { defineConfig } from 'vite';

/**
 * The static site: relative addresses, so that the same files open from a server, a folder or a
 * memory stick.
 */
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist/dashboards',
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
});
