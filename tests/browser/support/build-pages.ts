/** Builds the pages as `npm run build` does, into a folder of the test's own. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

export interface BuiltPages {
  folder: string;
  remove(): void;
}

export async function buildPages(): Promise<BuiltPages> {
  const folder = mkdtempSync(join(tmpdir(), 'pages-'));
  const configFile = fileURLToPath(new URL('../../../dashboards/vite.config.ts', import.meta.url));
  await build({ configFile, logLevel: 'error', build: { outDir: folder, emptyOutDir: true } });
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
