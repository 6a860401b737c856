/**
 * `npm run score` as a person starts it: src/lab/score/main.ts with workers.ts and its worker.ts,
 * built, on one short case.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const MAIN = fileURLToPath(new URL('../../../dist/src/lab/score/main.js', import.meta.url));
const CASE = 'bad-clamp-from-the-first-day';

function score(...args: string[]): { status: number | null; out: string; err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...args], { encoding: 'utf8' });
  return { status, out: stdout, err: stderr };
}

describe('npm run score', () => {
  it('prints one object of figures, and on stderr only how quick it was', () => {
    const { status, out, err } = score('--only', CASE, '--json');
    expect(status, err).toBe(0);
    const said = JSON.parse(out) as { cases: number; readings: number; figures: Record<string, object> };
    expect(said.cases).toBe(1);
    expect(said.readings).toBeGreaterThan(100_000);
    expect(Object.keys(said.figures)).toContain('badInput');
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it.each([
    {
      args: ['--only', 'no-such-case'],
      says: /^Cannot score: no case has "no-such-case" in its name\nUsage: /,
    },
    { args: ['--days', 'some'], says: /^Cannot score: --days must be a whole number over 0: some\nUsage: / },
    { args: ['--loud'], says: /--loud.*\n.*Usage: /s },
  ])('says what is wrong with $args', ({ args, says }) => {
    const { status, out, err } = score(...args);
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(says);
  });
});
