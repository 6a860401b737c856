/**
 * The parts of a server together: a card file is taken when it is new or changed, and never over
 * what was changed on the page.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { NodesAnswer } from '../../shared/api/nodes.ts';
import { makeCredential } from '../../src/mqtt/credentials.ts';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import { openServer, type RunningServer } from '../../src/server/server.ts';
import { connectNode } from '../mqtt/support.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const card = (motor: string): Record<string, unknown> => ({ well: 'mill', pump: { motor } });

/**
 * Starts a server on `folder`, does `work` with it, ends it, and says which motors the well's cards
 * have had.
 */
async function start(
  folder: string,
  work: (station: RunningServer) => Promise<unknown> = () => Promise.resolve(),
): Promise<string[]> {
  const station = await openIn(folder);
  await work(station);
  const acts = (await station.store.acts({ fromMs: 0 })).filter((row) => row.kind === 'card-changed');
  await station.close();
  return acts.map((row) => (row.body as { card: { pump: { motor: string } } }).card.pump.motor);
}

function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-station-'));
  ends.push(() => rmSync(folder, { recursive: true, force: true }));
  mkdirSync(join(folder, 'cards'));
  return folder;
}

function openIn(folder: string): Promise<RunningServer> {
  return openServer({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir: join(folder, 'data'),
      cardsDir: join(folder, 'cards'),
      broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
    },
    secrets: { channels: {} },
    version: '0.0.0',
    now: Date.now,
    log: () => undefined,
    allowLocal: true,
    autoTick: false,
  });
}

describe('a gateway at the built-in broker', () => {
  it('makes only the names that its credential was given, however many its hello names', async () => {
    const station = await openIn(newFolder());
    ends.push(() => station.close());
    const { password, row } = await makeCredential('gate', { createdMs: 0, speaksFor: ['pond'] });
    await station.store.commit([{ change: 'credential', row }]);
    const gate = await connectNode(`mqtt://127.0.0.1:${station.brokerPort}`, { username: 'gate', password });
    const speaksFor = ['pond', ...Array.from({ length: 3000 }, (_, i) => `n-${i}`)];
    const hello = JSON.stringify({ contract: 1, channels: [], speaksFor });
    // The broker acknowledges what is on disk.
    await gate.publishAsync('wells/gate/hello', hello, { qos: 1, retain: true });
    await gate.endAsync();
    expect([...station.live.state().pipelines.keys()]).toEqual(['gate', 'pond']);
    expect(await station.store.nodes()).toMatchObject([
      { node: 'gate', ignored: { names: 3000 } },
      { node: 'pond' },
    ]);
    const { nodes } = (await (await fetch(new URL('/api/nodes', station.web.url))).json()) as NodesAnswer;
    expect(nodes.find(({ node }) => node === 'gate')?.ignored).toMatchObject({
      names: 3000,
      last: expect.stringContaining('its credential does not cover them') as string,
    });
    const metrics = await (await fetch(new URL('/metrics', station.web.url))).text();
    expect(metrics).toContain('stillwell_ignored_names_total{node="gate"} 3000');
  });
});

describe('card files', () => {
  it('are taken when new or changed, and leave alone what was changed on the page since', async () => {
    const folder = newFolder();
    const write = (motor: string): void =>
      writeFileSync(join(folder, 'cards', 'mill.json'), JSON.stringify(card(motor)));
    write('1 hp');
    expect(await start(folder)).toEqual(['1 hp']);
    expect(
      await start(folder, ({ live }) => live.applyAct({ kind: 'card-changed', card: card('2 hp') })),
    ).toEqual(['1 hp', '2 hp']);
    expect(await start(folder)).toEqual(['1 hp', '2 hp']);
    write('3 hp');
    expect(await start(folder)).toEqual(['1 hp', '2 hp', '3 hp']);
  });
});
