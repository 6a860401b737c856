/**
 * CPU a message of each station by itself, on one thread: what the whole line's cost is made of.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readCard } from '../../core/domain/read-card.ts';
import { readTableFromCards } from '../../core/domain/sources.ts';
import { newWell } from '../../core/well/engine.ts';
import { newPipeline, advancePipeline } from '../../core/fleet/well-pipeline.ts';
import { addPack } from '../../core/readings/inbox.ts';
import { newNode, receivePack } from '../../core/readings/node.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import { openStore } from '../../store/open-store.ts';
import type { Pack } from '../../core/decode/messages.ts';
import { readMessage } from '../../core/decode/read-message.ts';
import { benchPack, makeTrack, PACK_S } from './packs.ts';

export interface StageCosts {
  decodeUs: number;
  intakeUs: number;
  engineUs: number;
  commitUs: number;
}

const ROOT = 'wells';
/** Messages of one commit under load. */
const PACKS_PER_COMMIT = 200;

/** `messages` packs of `nodes` nodes through one station after the other. */
export async function benchStages(messages: number, nodes: number): Promise<StageCosts> {
  const track = makeTrack(3600, 9);
  const fromMs = Date.UTC(2026, 0, 6);
  const raw = Array.from({ length: messages }, (_, i) => {
    const name = `n-${i % nodes}`;
    const seq = Math.floor(i / nodes) + 1;
    return {
      name,
      arrivalMs: fromMs + seq * PACK_S * 1000,
      bytes: benchPack(track, { name, offset: (i % nodes) * 37 }, seq, fromMs),
    };
  });
  const packs: Pack[] = [];
  const decodeUs = await cpuUsEach(messages, () => {
    for (const { name, arrivalMs, bytes } of raw) {
      const read = readMessage({
        root: ROOT,
        topic: `${ROOT}/${name}/readings`,
        payload: bytes,
        retained: false,
        arrivalMs,
      });
      if (read.is !== 'pack') throw new Error(`Cannot bench: a pack was read as ${read.is}`);
      packs.push(read.pack);
    }
  });
  const states = new Map(Array.from({ length: nodes }, (_, i) => [`n-${i}`, newNode(`n-${i}`)]));
  const placed: PlacedPack[] = [];
  const intakeUs = await cpuUsEach(messages, () => {
    for (const [i, pack] of packs.entries()) {
      const receipt = receivePack(states.get(pack.node)!, pack, raw[i]!.arrivalMs);
      if (receipt.is !== 'duplicate') placed.push(receipt.placed);
    }
  });
  return {
    decodeUs,
    intakeUs,
    engineUs: await engineCost(placed, nodes),
    commitUs: await commitCost(placed),
  };
}

function engineCost(placed: PlacedPack[], nodes: number): Promise<number> {
  const cards = Array.from({ length: nodes }, (_, i) => {
    const read = readCard({ well: `n-${i}` });
    if ('problem' in read) throw new Error(read.problem);
    return read.card;
  });
  const table = readTableFromCards(cards);
  const pipelines = new Map(cards.map((card) => [card.well, newPipeline(card.well, newWell(card))]));
  return cpuUsEach(placed.length, () => {
    for (const pack of placed) {
      const pipeline = pipelines.get(pack.node)!;
      addPack(pipeline.inbox, pipeline.well, pack, table);
      advancePipeline(pipeline, pack.columns[0]!.times.at(-1)!, () => undefined);
    }
  });
}

async function commitCost(placed: PlacedPack[]): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-bench-'));
  const store = openStore(join(folder, 'bench.db'));
  const cost = await cpuUsEach(placed.length, async () => {
    for (let i = 0; i < placed.length; i += PACKS_PER_COMMIT) {
      await store.commit(placed.slice(i, i + PACKS_PER_COMMIT).map((pack) => ({ change: 'pack', pack })));
    }
  });
  await store.close();
  rmSync(folder, { recursive: true, force: true });
  return cost;
}

/** CPU of `work`, us for each of `n`. */
async function cpuUsEach(n: number, work: () => void | Promise<void>): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const used = process.cpuUsage(before);
  return (used.user + used.system) / n;
}
