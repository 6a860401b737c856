#!/usr/bin/env node
// The command of a clone: `npx stillwell …` installs and builds what is missing first, as
// `npm start` does, then runs the program.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const ready = spawnSync(process.execPath, [join(here, 'ready.mjs'), 'build'], { stdio: ['ignore', 2, 2] });
if (ready.status !== 0) process.exit(ready.status ?? 1);
await import('../dist/main.js');
