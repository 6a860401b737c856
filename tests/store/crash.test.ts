/**
 * A server killed in the middle of its commits, again and again on one file: what it said was kept
 * is there, once.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.ts';
import { packsSinceSave } from '../support/packs-since-save.ts';

const CHILD = fileURLToPath(new URL('./crash-child.ts', import.meta.url));
const TOP = fileURLToPath(new URL('../..', import.meta.url));

/** Runs the child until it has said so many lines, kills it, and returns the last `seq` it said. */
async function killAfter(path: string, first: number, lines: number): Promise<number> {
  const child = spawn(process.execPath, ['--import', 'tsx', CHILD, path, String(first)], {
    cwd: TOP,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  let said = 0;
  let count = 0;
  for await (const line of createInterface({ input: child.stdout })) {
    said = Number(line);
    // It goes on committing while the signal travels: the last line read is what counts.
    if (++count === lines) child.kill('SIGKILL');
  }
  await ended;
  return said;
}

test('what was said to be kept is there once, after each of six kills', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'store-crash-'));
  const path = join(folder, 'wells.db');
  try {
    let last = 0;
    for (const lines of [1, 37, 150, 8, 333, 90]) {
      const said = await killAfter(path, last + 1, lines);
      const store = openStore(path);
      const kept = Number(await store.getValue('seq'));
      expect(kept).toBeGreaterThanOrEqual(said);
      let readings = 0;
      for (let node = 0; node < 3; node++) {
        const series = await store.readings(`node-${node}`, 'current', 0, Number.MAX_SAFE_INTEGER);
        readings += series.n;
        for (let i = 0; i < series.n; i++) {
          const seq = Math.floor(series.timeMs[i]! / 10_000);
          expect(seq % 3).toBe(node);
          expect(series.value[i]).toBe((seq % 1000) + (series.timeMs[i]! % 10_000) / 1000 / 100);
        }
      }
      expect(readings).toBe(kept * 10);
      const { unsealedReadings, sealedReadings } = await store.stats();
      expect(unsealedReadings + sealedReadings).toBe(readings);
      // Packs since the saves: whole and in order, up to the last.
      const seqs = (await packsSinceSave(store)).map(({ seq }) => seq);
      const saved = new Map((await store.nodes()).map(({ node, savedMs }) => [node, savedMs ?? 0]));
      const wanted = Array.from({ length: kept }, (_, i) => i + 1).filter(
        (seq) => seq > (saved.get(`node-${seq % 3}`) ?? 0),
      );
      expect(seqs).toEqual(wanted);
      await store.close();
      last = kept;
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
});
