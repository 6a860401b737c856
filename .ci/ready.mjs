// Makes a fresh clone ready: installs what is missing, and with 'build' builds what is older than
// its sources. With 'packages' it leaves out the database driver, which may have to be compiled,
// and with 'driver' it makes that alone. With 'built' it installs nothing and only says whether the
// build is newer than its sources. It runs before anything is installed, so it uses Node alone.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = join(dirname(fileURLToPath(import.meta.url)), '..');
const wanted = process.argv.slice(2);

/** Runs one command in the project folder and ends this process when it fails. */
function run(what, command, args, env = {}) {
  const done = spawnSync(command, args, {
    cwd: top,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
    env: { ...process.env, ...env },
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

function isBuilt() {
  const sources = ['src', 'shared', 'dashboards', 'package-lock.json'].map((p) => newest(join(top, p)));
  const stamp = join(top, 'dist', '.built');
  return existsSync(stamp) && statSync(stamp).mtimeMs >= Math.max(...sources);
}

function installPackages() {
  const lock = readFileSync(join(top, 'package-lock.json'), 'utf8');
  const mark = join(top, 'node_modules', '.stillwell-lock');
  if (existsSync(mark) && readFileSync(mark, 'utf8') === lock) return;
  console.error('Installing what is missing …');
  run('install', 'npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error']);
  writeFileSync(mark, lock);
}

/** The one package with a script of its own to run: it fetches the driver or compiles it. */
function installDriver() {
  if (existsSync(join(top, 'node_modules', 'better-sqlite3', 'build', 'Release', 'better_sqlite3.node')))
    return;
  console.error('Installing the database driver (it may compile for a minute or two) …');
  run('install the database driver', 'npm', ['rebuild', 'better-sqlite3', '--loglevel=error'], {
    JOBS: 'max',
  });
}

const [major] = process.versions.node.split('.').map(Number);
if (major < 20) {
  console.error(`Cannot start: Node 20 or newer is needed, this is ${process.versions.node}.`);
  process.exit(1);
}

if (wanted.includes('built')) {
  if (isBuilt()) process.exit(0);
  console.error('Cannot use dist: it is older than its sources. Run: npm run build');
  process.exit(1);
}
if (!wanted.includes('driver')) installPackages();
if (!wanted.includes('packages')) installDriver();
if (wanted.includes('build') && !isBuilt()) {
  console.error('Building …');
  run('build', 'npm', ['run', '--silent', 'build']);
}
