/**
 * Tells one state of the sources from another: what was measured with one engine is not gone on
 * with by the next.
 */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Of all TypeScript that the engine and the simulated wells are made of; `top` is the project's
 * folder.
 */
export function sourceHash(top: string): string {
  const hash = createHash('sha256');
  for (const folder of ['shared', 'src/core', 'src/lab', 'src/replay'])
    for (const name of readdirSync(join(top, folder), { recursive: true, encoding: 'utf8' }).toSorted())
      if (name.endsWith('.ts'))
        hash.update(`${folder}/${name}\n${readFileSync(join(top, folder, name), 'utf8')}`);
  return hash.digest('hex').slice(0, 16);
}
