// `npm run check`: everything that a change must pass. The steps before the tests need nothing of
// each other but the packages, so two run at a time, the longest first: the database driver is
// compiled while types and code are looked at. A step prints its output when it has ended, whole.
// The tests run when all steps have passed.
import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = join(dirname(fileURLToPath(import.meta.url)), '..');
const AT_ONCE = 2;
const STEPS = [
  { name: 'database driver', command: 'node', args: ['.ci/ready.mjs', 'driver'] },
  ...['lint', 'types', 'format:check', 'build', 'dead'].map((name) => ({
    name,
    command: 'npm',
    args: ['run', '--silent', name],
  })),
];

/** Runs one command; resolves with its exit code and, where it is kept back, what it printed. */
function run(command, args, stdio) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: top, stdio, shell: process.platform === 'win32' });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (output += chunk));
    child.once('error', (error) => resolve({ code: 1, output: error.message }));
    child.once('close', (code) => resolve({ code: code ?? 1, output }));
  });
}

const failed = [];
const waiting = [...STEPS];

async function runSteps() {
  for (let step = waiting.shift(); step; step = waiting.shift()) {
    const { name, command, args } = step;
    const began = Date.now();
    const { code, output } = await run(command, args, ['ignore', 'pipe', 'pipe']);
    const took = Math.round((Date.now() - began) / 1000);
    if (code !== 0) failed.push(name);
    console.log(
      `${name}: ${code === 0 ? 'passed' : `failed with exit ${code}`}, ${took} s\n${output}`.trimEnd(),
    );
  }
}

async function main() {
  const ready = await run('node', ['.ci/ready.mjs', 'packages'], 'inherit');
  if (ready.code !== 0) return ready.code;
  await Promise.all(Array.from({ length: AT_ONCE }, runSteps));
  if (failed.length > 0) {
    console.error(`Failed: ${failed.join(', ')}. The tests were not run.`);
    return 1;
  }
  return (await run('npm', ['test'], 'inherit')).code;
}

process.exitCode = await main();
