/**
 * Bytes a reading on disk, times included, and how long a month and a day of one channel take to
 * read.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { openStore } from '../../store/open-store.ts';
import { demoWells } from '../demo-wells.ts';
import { newSimulatedWell, simulate } from '../model/well.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';

export interface DiskFigures {
  bytesPerReading: number;
  monthMs: number;
  dayMs: number;
  readings: number;
}

/** Moments of one pack, packs of one commit. */
const PACK_MOMENTS = 250;
const PACKS_PER_COMMIT = 40;

/**
 * `days` of all four wells of the farm at `everyS`, through commit and housekeeping; then the file
 * is weighed and read.
 */
export async function benchDisk(days: number, everyS: number): Promise<DiskFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-bench-'));
  const path = join(folder, 'bench.db');
  const fromMs = Date.UTC(2026, 0, 5);
  const store = openStore(path);
  let readings = 0;
  let pending: PlacedPack[] = [];
  const commit = async (): Promise<void> => {
    await store.commit(pending.map((pack) => ({ change: 'pack', pack })));
    for (const pack of pending) for (const column of pack.columns) readings += column.times.length;
    pending = [];
  };
  for (const { params } of demoWells(fromMs + days * DAY_MS)) {
    for (const pack of packsOf(params, fromMs, { days, everyS })) {
      pending.push(pack);
      if (pending.length >= PACKS_PER_COMMIT) await commit();
    }
    await commit();
    // Housekeeping is told that time has gone on, so that all full blocks are sealed.
    while (await store.maintain(fromMs + (days + 2) * DAY_MS, 1000));
  }
  await store.close();
  const bytes = statSync(path).size;
  const reopened = openStore(path);
  const well = demoWells(0)[0]!.params.name;
  const monthMs = await timed(() => reopened.readings(well, 'pressure', fromMs, fromMs + 30 * DAY_MS));
  const dayMs = await timed(() =>
    reopened.readings(well, 'pressure', fromMs + 3 * DAY_MS, fromMs + 4 * DAY_MS),
  );
  await reopened.close();
  rmSync(folder, { recursive: true, force: true });
  return { bytesPerReading: bytes / readings, monthMs, dayMs, readings };
}

/** The quickest of five, so that another program's turn does not count. */
async function timed(work: () => Promise<unknown>): Promise<number> {
  let best = Infinity;
  for (let i = 0; i < 5; i++) {
    const began = performance.now();
    await work();
    best = Math.min(best, performance.now() - began);
  }
  return best;
}

function* packsOf(
  params: Parameters<typeof newSimulatedWell>[0],
  fromMs: number,
  { days, everyS }: { days: number; everyS: number },
): Generator<PlacedPack> {
  const well = newSimulatedWell(params, fromMs);
  const packMs = PACK_MOMENTS * everyS * 1000;
  let seq = 0;
  for (let toMs = fromMs + packMs; toMs <= fromMs + days * DAY_MS; toMs += packMs) {
    const times: number[] = [];
    const amps: number[] = [];
    const pascal: number[] = [];
    simulate(well, toMs, everyS, (sample) => {
      times.push(sample.tMs);
      amps.push(sample.amps);
      pascal.push(Math.round(sample.kpa * 10) * 100);
    });
    seq++;
    yield {
      node: params.name,
      kind: 'readings',
      boot: 7,
      seq,
      arrivalMs: toMs,
      digest: seq,
      columns: [
        { channel: 'current', times: Float64Array.from(times), values: Float64Array.from(amps) },
        { channel: 'pressure', times: Float64Array.from(times), values: Float64Array.from(pascal) },
      ],
    };
  }
}
