/**
 * Where this program lies: the folder of package.json, whether it runs from `dist` or from its
 * sources.
 */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

function findPackageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const up = dirname(folder);
    if (up === folder) throw new Error(`Cannot find package.json above ${folder}: the program is not whole`);
    folder = up;
  }
  return folder;
}

const packageRoot = findPackageRoot();

/** The built pages; undefined where they were not built. */
export function siteFolder(): string | undefined {
  const folder = join(packageRoot, 'dist', 'dashboards');
  return existsSync(join(folder, 'index.html')) ? folder : undefined;
}

export function programVersion(): string {
  const read = JSON.parse(readFileSync(join(packageRoot, 'package.json'), 'utf8')) as { version: string };
  return read.version;
}
