// The last step of a build: `dist/main.js` is the command, whatever folder the compiler writes to;
// migrations and styles are copied; and `replay`, which is started anew for each recording, becomes
// one file: reading three hundred costs it a third of a second each time.
import { cpSync, existsSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const top = join(dirname(fileURLToPath(import.meta.url)), '..');
const dist = join(top, 'dist');
const migrations = join(top, 'src', 'store', 'sqlite', 'migrations');
if (existsSync(migrations))
  cpSync(migrations, join(dist, 'src', 'store', 'sqlite', 'migrations'), { recursive: true });
cpSync(join(top, 'shared', 'view'), join(dist, 'shared', 'view'), {
  recursive: true,
  filter: (path) => !/\.tsx?$/.test(path),
});
writeFileSync(join(dist, 'main.js'), "#!/usr/bin/env node\nimport './src/main.js';\n");

const replay = join(dist, 'src', 'cli', 'replay.js');
await build({
  configFile: false,
  logLevel: 'warn',
  ssr: { noExternal: true },
  build: {
    ssr: replay,
    outDir: dirname(replay),
    emptyOutDir: false,
    target: 'node20',
    // What the command line tells errors by must be one and the same in both.
    rolldownOptions: {
      external: /\/command\.js$/,
      output: { entryFileNames: 'replay.js', codeSplitting: false },
    },
  },
});
writeFileSync(join(dist, '.built'), new Date().toISOString() + '\n');
