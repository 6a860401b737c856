/**
 * `replay` over a well-month at 1 Hz in a process of its own: readings a second and the most memory
 * it took.
 */
import { spawn } from 'node:child_process';
import { createWriteStream, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DAY_S } from '../../../shared/units/duration.ts';
import { formatMessageLine } from '../../core/decode/recording.ts';
import { demoWells } from '../demo-wells.ts';
import { benchPack, makeTrack, PACK_S } from './packs.ts';

export interface ReplayFigures {
  readingsPerS: number;
  seconds: number;
  readings: number;
  /** Peak resident memory; absent where the system does not tell. */
  peakMiB?: number;
}

/** `main`: the built command. Readings in all are two channels at 1 Hz over `days`. */
export async function benchReplay(main: string, days: number): Promise<ReplayFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-bench-'));
  const recording = join(folder, 'month.ndjson');
  const card = join(folder, 'card.json');
  writeFileSync(card, JSON.stringify(demoWells(0)[0]!.card));
  const readings = await writeMonth(recording, days);
  const began = performance.now();
  const peakMiB = await run(main, [recording, '--card', card]);
  const seconds = (performance.now() - began) / 1000;
  rmSync(folder, { recursive: true, force: true });
  return { readingsPerS: readings / seconds, seconds, readings, ...(peakMiB !== undefined && { peakMiB }) };
}

async function writeMonth(path: string, days: number): Promise<number> {
  const seconds = days * DAY_S;
  const track = makeTrack(seconds, 41);
  const fromMs = Date.UTC(2026, 0, 5);
  const file = createWriteStream(path);
  for (let seq = 1; seq * PACK_S <= seconds; seq++) {
    const payload = benchPack(track, { name: 'house', offset: 0 }, seq, fromMs);
    const tstMs = fromMs + seq * PACK_S * 1000 + 300;
    if (
      !file.write(
        `${formatMessageLine({ tstMs, topic: 'wells/house/readings', payload, retained: false })}\n`,
      )
    )
      await once(file, 'drain');
  }
  file.end();
  await once(file, 'finish');
  return seconds * 2;
}

/** Looks at the process while it runs: Linux keeps its peak in /proc. */
async function run(main: string, args: string[]): Promise<number | undefined> {
  const child = spawn(process.execPath, [main, 'replay', ...args], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const status = `/proc/${child.pid}/status`;
  let peakMiB: number | undefined;
  const timer = setInterval(() => {
    if (!existsSync(status)) return;
    const kib = /VmHWM:\s+(\d+) kB/.exec(readFileSync(status, 'utf8'))?.[1];
    if (kib !== undefined) peakMiB = Number(kib) / 1024;
  }, 100);
  const code = await new Promise<number | null>((done) => child.once('exit', done));
  clearInterval(timer);
  if (code !== 0) throw new Error(`Cannot bench replay: it ended with ${code}`);
  return peakMiB;
}
