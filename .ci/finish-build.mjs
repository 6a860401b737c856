// The last step of a build: `dist/main.js` is the command, whatever folder the compiler writes to; migrations are copied.
import { cpSync, existsSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = join(dirname(fileURLToPath(import.meta.url)), '..');
const dist = join(top, 'dist');
const migrations = join(top, 'src', 'store', 'migrations');
if (existsSync(migrations)) cpSync(migrations, join(dist, 'src', 'store', 'migrations'), { recursive: true });
writeFileSync(join(dist, 'main.js'), "#!/usr/bin/env node\nimport './src/main.js';\n");
writeFileSync(join(dist, '.built'), new Date().toISOString() + '\n');
