/**
 * Kept means kept: the server is killed without warning several times under load, and nodes that
 * hold their packs until `kept` lose nothing. In the end every reading is there once, and cycles,
 * days, alarms and notices are those of a server that nothing happened to.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STORE_FILE } from '../../src/server/server.ts';
import { openStore } from '../../src/store/open-store.ts';
import { depth } from '../support/depth.ts';
import { startLoad } from './support/load.ts';
import { helloOf, measured, packOf, PACK_S, START_MS, type SquareNode } from './support/square-wells.ts';

/** An hour of 50 nodes, 20,000 packs; in short half of it. */
const ROUNDS = depth(220, 400);
const KILLS = depth(5, 10);
/**
 * Where a commit and each answer of the store take a while, a kill meets the server between them. A
 * seed that fails stays here for ever.
 */
const DELAY_SEEDS = depth([4242], [4242, 7, 1009]);
/** After the last reading, so long that nobody is waited for. */
const AFTER_MS = 120_000;
const END = Number.MAX_SAFE_INTEGER;

const WELLS = Array.from({ length: 30 }, (_, i): SquareNode => ({
  name: `well-${i}`,
  channels: i < 20 ? ['current'] : ['current', 'pressure'],
  // Every fifth starts far too often; every seventh does not stop any more after a while.
  onS: i % 5 === 0 ? 14 : 60 + 3 * i,
  everyS: i % 5 === 0 ? 41 : 300 + 11 * i,
  stuckFrom: i % 7 === 0 ? depth(60, 180) : END,
}));
/** The first twenty wells take their pressure from another node. */
const PRESSURES = WELLS.slice(0, 20).map((well, i): SquareNode => ({
  ...well,
  name: `house-${i}`,
  channels: ['pressure'],
}));
const NODES = [...WELLS, ...PRESSURES];

const cardOf = (i: number): Record<string, unknown> => ({
  well: `well-${i}`,
  site: 'home-farm',
  timeZone: 'America/Denver',
  control: 'pressure-switch',
  pump: { motor: '1 hp', volts: '230 V', maxAmps: '9.8 A' },
  // Those that start far too often end their runs lower.
  switch: { cutIn: '40 psi', cutOut: i % 5 === 0 ? '57 psi' : '60 psi' },
  ...(i < 20 && { reads: { pressure: `house-${i}:pressure` } }),
});

const troubles: string[] = [];

function killAt(kills: number): number[] {
  const total = NODES.length * ROUNDS;
  return Array.from({ length: kills }, (_, k) => Math.floor(((k + 0.7) * total) / (kills + 1)));
}

/**
 * Runs the whole load through a server, killed so often on the way. Returns how many packs were
 * sent.
 */
async function run(dataDir: string, kills: number, delaySeed?: number): Promise<number> {
  const load = await startLoad({
    dataDir,
    nodes: NODES.map((node) => ({
      name: node.name,
      hello: helloOf(node),
      packs: Array.from({ length: ROUNDS }, (_, i) => packOf(node, i + 1)),
    })),
    acts: WELLS.map((_, i) => ({ kind: 'card-changed', card: cardOf(i) })),
    startMs: START_MS,
    packMs: PACK_S * 1000,
    killAt: killAt(kills),
    ...(delaySeed !== undefined && { delaySeed }),
  });
  await load.done;
  troubles.push(...(await load.end(START_MS + ROUNDS * PACK_S * 1000 + AFTER_MS)));
  return load.sent();
}

/** Everything that must be equal. */
async function kept(dataDir: string): Promise<Record<string, unknown>> {
  const store = openStore(join(dataDir, STORE_FILE));
  try {
    const wells = WELLS.map((well) => well.name);
    return {
      cycles: JSON.stringify(await Promise.all(wells.map((well) => store.cycles(well, 0, END)))),
      days: JSON.stringify(await Promise.all(wells.map((well) => store.days(well, 0, END)))),
      baselines: JSON.stringify(await Promise.all(wells.map((well) => store.baselines(well)))),
      alarms: await store.alarms({}),
      // Of those that became due at one moment none is first.
      notices: JSON.stringify(
        (await store.notices({})).map((row) => [row.id, row.state].join(' ')).toSorted(),
      ),
      refused: await store.refused(5),
    };
  } finally {
    await store.close();
  }
}

async function lostReadings(dataDir: string): Promise<string[]> {
  const store = openStore(join(dataDir, STORE_FILE));
  const lost: string[] = [];
  try {
    for (const node of NODES) {
      for (const channel of node.channels) {
        const series = await store.readings(node.name, channel, 0, END);
        const right =
          series.n === ROUNDS * PACK_S &&
          series.timeMs.subarray(0, series.n).every((tMs, s) => tMs === START_MS + s * 1000);
        const same =
          right &&
          series.value.subarray(0, series.n).every((value, s) => value === measured(node, channel, s));
        if (!same) lost.push(`${node.name}:${channel}: ${series.n} of ${ROUNDS * PACK_S}`);
      }
    }
  } finally {
    await store.close();
  }
  return lost;
}

/**
 * A server, eleven starts and twenty thousand packs: on a machine that is busy with other things
 * that takes minutes.
 */
const PATIENCE_MS = 900_000;

describe(`a server killed ${KILLS} times under load`, { timeout: PATIENCE_MS }, () => {
  let folder = '';
  const calm = (): string => join(folder, 'calm');
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'stillwell-kill-'));
    expect(await run(calm(), 0)).toBe(NODES.length * ROUNDS);
    expect(await lostReadings(calm())).toEqual([]);
  }, PATIENCE_MS);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.each<[string, number | undefined]>([
    ['whose store answers at once', undefined],
    ...DELAY_SEEDS.map((seed): [string, number] => [
      `whose store answers after delays of seed ${seed}`,
      seed,
    ]),
  ])('%s, has every reading once, and says what an undisturbed one says', async (_, delaySeed) => {
    const hit = join(folder, `hit-${delaySeed}`);
    const sent = await run(hit, KILLS, delaySeed);
    expect(troubles).toEqual([]);
    // Nodes had to send again.
    expect(sent).toBeGreaterThan(NODES.length * ROUNDS);
    expect(await lostReadings(hit)).toEqual([]);
    const reported = await kept(hit);
    expect(reported).toEqual(await kept(calm()));
    // Something was there to be equal.
    expect(String(reported['cycles'])).toContain('"event":"cycle"');
    expect(reported['alarms']).not.toEqual([]);
  });
});
