/**
 * `npm run bench` as a person starts it: src/lab/bench/main.ts, built, with the small sizes. How
 * fast it is, is not asked here.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const BENCH = fileURLToPath(new URL('../../dist/src/lab/bench/main.js', import.meta.url));
const FIGURES = [
  'bytesPerReading',
  'channelDayMs',
  'channelMonthMs',
  'cpuUsPerMessage',
  'endToEndShare',
  'engineReadingsPerS',
  'noticeP99Ms',
  'replayMiB',
  'replayReadingsPerS',
  'stateBytesPerWell',
];
/**
 * The most memory is looked up in /proc now and then: other systems do not tell it, nor a replay
 * that is over before the first look.
 */
const ALWAYS = FIGURES.filter((name) => name !== 'replayMiB');

it('prints one object with all its figures, says what it is at meanwhile, and leaves no process', async () => {
  const bench = spawn(process.execPath, [BENCH, '--quick', '--json'], { stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  let err = '';
  bench.stdout.on('data', (chunk) => (out += String(chunk)));
  bench.stderr.on('data', (chunk) => (err += String(chunk)));
  // `close` comes only when nobody holds its outputs any more: its children hold stderr.
  const code = await new Promise<number | null>((done) => bench.once('close', done));
  expect(code, err).toBe(0);
  const figures = JSON.parse(out) as Record<string, unknown>;
  expect(Object.keys(figures)).toEqual(expect.arrayContaining(ALWAYS));
  expect(FIGURES).toEqual(expect.arrayContaining(Object.keys(figures)));
  for (const [name, figure] of Object.entries(figures)) {
    expect(Number.isFinite(figure), `${name}: ${String(figure)}`).toBe(true);
    // A notice goes by our clock's whole ms: it can be handed over within the same one.
    if (name === 'noticeP99Ms') expect(figure).toBeGreaterThanOrEqual(0);
    else expect(figure, name).toBeGreaterThan(0);
  }
  // What the server of the bench says of itself on a busy machine stands between them.
  expect(err.split('\n').filter((line) => line.endsWith(' …'))).toHaveLength(6);
});
