/**
 * The pages as `npm run build` makes them, for all tests that open them: what people get is what is
 * looked at, and nobody builds it a second time.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const READY = fileURLToPath(new URL('../../../.ci/ready.mjs', import.meta.url));
const FOLDER = fileURLToPath(new URL('../../../dist/dashboards', import.meta.url));
let isFresh = false;

/** Their folder. @throws where a source is newer than the build: old pages must not pass. */
export function builtPages(): string {
  if (!isFresh) execFileSync(process.execPath, [READY, 'built'], { stdio: 'pipe' });
  isFresh = true;
  return FOLDER;
}
