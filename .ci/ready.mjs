// Makes a fresh clone ready: installs what is missing, and with 'build' builds what is older than
// its sources. It runs before anything is installed, so it uses Node alone.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = join(dirname(fileURLToPath(import.meta.url)), '..');
const wanted = process.argv.slice(2);

/** Runs one command in the project folder and ends this process when it fails. */
function run(what, command, args) {
  const done = spawnSync(command, args, {
    cwd: top,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (done.status === 0) return;
  console.error(
    `Cannot ${what}: "${command} ${args.join(' ')}" ended with ${done.status ?? done.error?.message}.`,
  );
  process.exit(1);
}

/** The newest change in a folder, in ms; 0 where there is none. */
function newest(path) {
  if (!existsSync(path)) return 0;
  const at = statSync(path);
  if (!at.isDirectory()) return at.mtimeMs;
  return readdirSync(path).reduce((best, name) => Math.max(best, newest(join(path, name))), 0);
}

const [major] = process.versions.node.split('.').map(Number);
if (major < 20) {
  console.error(`Cannot start: Node 20 or newer is needed, this is ${process.versions.node}.`);
  process.exit(1);
}

const lock = readFileSync(join(top, 'package-lock.json'), 'utf8');
const mark = join(top, 'node_modules', '.stillwell-lock');
if (!existsSync(mark) || readFileSync(mark, 'utf8') !== lock) {
  console.error('Installing what is missing (once; the database driver may compile for a minute or two) …');
  run('install', 'npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
  writeFileSync(mark, lock);
}

if (wanted.includes('build')) {
  const sources = Math.max(
    ...['src', 'shared', 'dashboards', 'package-lock.json'].map((p) => newest(join(top, p))),
  );
  const stamp = join(top, 'dist', '.built');
  if (!existsSync(stamp) || statSync(stamp).mtimeMs < sources) {
    console.error('Building …');
    run('build', 'npm', ['run', '--silent', 'build']);
  }
}
