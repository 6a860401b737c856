/**
 * A packet goes out, comes into an empty Stillwell and goes out again, over the API of servers that
 * run: the same bytes, papers included.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../src/config/read-settings.ts';
import { openServer, DOCUMENTS_FOLDER, STORE_FILE, type RunningServer } from '../../../src/server/server.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { Change } from '../../../src/store/store.ts';
import { openDocuments } from '../../../src/store/document-files.ts';
import { millChanges, millRecord, NOON_MS, DOCUMENTS } from '../../support/export-well.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'stillwell-packet-'));
  ends.push(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

/** A server whose clock stands at the given day after the packet's noon. */
async function start(dataDir: string, days: number): Promise<RunningServer> {
  const station = await openServer({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir,
      broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
    },
    secrets: { channels: {} },
    version: '0.0.0',
    now: () => NOON_MS + days * 86_400_000,
    log: () => undefined,
    allowLocal: true,
    autoTick: false,
  });
  ends.push(() => station.close());
  return station;
}

/**
 * A server that knows the mill's well as its own. What its engine made is put in once it runs: it
 * would make nothing without readings.
 */
async function millServer(): Promise<RunningServer> {
  const dataDir = folder();
  const isMade = ({ change }: Change): boolean => ['cycle', 'day', 'baseline', 'alarm'].includes(change);
  const store = openStore(join(dataDir, STORE_FILE));
  await store.commit(millChanges().filter((change) => !isMade(change)));
  await store.close();
  const papers = openDocuments(join(dataDir, DOCUMENTS_FOLDER));
  for (const bytes of Object.values(DOCUMENTS)) papers.put(bytes);
  const station = await start(dataDir, 0.5);
  await station.store.commit(millChanges().filter(isMade));
  return station;
}

const bytesOf = async (station: RunningServer, form = 'zip'): Promise<Buffer> => {
  const response = await fetch(`${station.web.url}api/wells/mill/export.${form}`);
  expect(response.status).toBe(200);
  return Buffer.from(await response.arrayBuffer());
};
const give = async (
  station: RunningServer,
  bytes: Buffer,
  query = '',
): Promise<{ status: number; said: string }> => {
  const response = await fetch(`${station.web.url}api/imports${query}`, {
    method: 'POST',
    body: Uint8Array.from(bytes),
  });
  const answer = (await response.json()) as { summary?: string[]; detail?: string };
  return { status: response.status, said: answer.summary?.join(' ') ?? answer.detail ?? '' };
};
const hash = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

describe('a packet', () => {
  test('comes into an empty server and goes out again as the same bytes, also after a start and days later', async () => {
    const first = await bytesOf(await millServer());
    const dataDir = folder();
    const other = await start(dataDir, 2);
    const taken = await give(other, first);
    expect(taken).toEqual({
      status: 200,
      said: 'mill was added as a new well. Added: 8 entries, 2 documents, 5 acts, 1 alarm, 1 baseline, 20 days, 80 cycles.',
    });
    expect(hash(await bytesOf(other))).toBe(hash(first));
    await other.live.tick();
    await other.close();
    const later = await start(dataDir, 4);
    await later.live.tick();
    expect(hash(await bytesOf(later))).toBe(hash(first));
  });

  test('of the page alone brings all but the papers, and says so; the ZIP then brings those', async () => {
    const mill = await millServer();
    const other = await start(folder(), 1);
    expect(await give(other, await bytesOf(mill, 'html'))).toEqual({
      status: 200,
      said: 'mill was added as a new well. Added: 8 entries, 5 acts, 1 alarm, 1 baseline, 20 days, 80 cycles. Missing from the export: 2 documents (tank.jpg, ../../log of the well.txt).',
    });
    expect((await bytesOf(other)).length).toBeLessThan((await bytesOf(mill)).length);
    expect(await give(other, await bytesOf(mill))).toEqual({
      status: 200,
      said: 'mill already existed here; no existing record was changed. Added: 2 documents.',
    });
    expect(hash(await bytesOf(other))).toBe(hash(await bytesOf(mill)));
  });

  test('taken in where it came from brings nothing and changes nothing', async () => {
    const mill = await millServer();
    const bytes = await bytesOf(mill);
    expect((await give(mill, bytes)).said).toContain('Nothing in the export was new.');
    expect(await mill.store.importedWells()).toEqual([]);
    expect(hash(await bytesOf(mill))).toBe(hash(bytes));
  });

  test('of a well whose name is taken here is taken in only when somebody says that it is the same', async () => {
    const bytes = await bytesOf(await millServer());
    const other = await start(folder(), 1);
    await other.live.applyAct(
      { kind: 'card-changed', card: { well: 'mill', pump: { motor: '2 hp' } } },
      'Tom',
    );
    const refused = await give(other, bytes);
    expect(refused.status).toBe(409);
    expect(refused.said).toContain('There is already a well called mill here');
    expect(await other.store.entries()).toEqual([]);
    expect((await give(other, bytes, '?sameWell=true&by=Tom')).status).toBe(200);
    expect(await other.store.entries('mill')).toHaveLength(8);
    // Tom wrote later than what came.
    const card = await fetch(`${other.web.url}api/wells/mill/card`);
    expect(await card.json()).toMatchObject({ card: { pump: { motor: '2 hp' } }, by: 'Tom' });
    const days = await fetch(
      `${other.web.url}api/wells/mill/days?from=2026-01-01T00:00:00Z&to=2026-04-01T00:00:00Z`,
    );
    const reported = (await days.json()) as { days: { ranS?: number }[] };
    expect(reported.days.filter(({ ranS }) => ranS === 472)).toHaveLength(20);
    const alarms = (await (await fetch(`${other.web.url}api/alarms?well=mill`)).json()) as {
      alarms: object[];
    };
    expect(alarms.alarms).toMatchObject([{ alarm: 'short-cycling', active: false, imported: true }]);
  });

  test('of a well that is watched here leaves its card and its engine as they are', async () => {
    const bytes = await bytesOf(await millServer());
    const other = await start(folder(), 1);
    await other.live.applyAct({ kind: 'card-changed', card: { well: 'mill' } }, 'Tom');
    const cycle = millRecord().cycles.at(-1)!;
    const startedMs = NOON_MS + 3_600_000;
    await other.store.commit([
      { change: 'cycle', row: { ...cycle, startedMs, stoppedMs: startedMs + 118_000 } },
    ]);
    expect((await give(other, bytes, '?sameWell=true')).said).toContain(
      'It is monitored here, so the card here stays',
    );
    expect((await other.store.acts({ well: 'mill', fromMs: 0 })).map(({ by }) => by)).toEqual(['Tom']);
    const acts = (await (await fetch(`${other.web.url}api/wells/mill/acts`)).json()) as {
      acts: { by: string }[];
    };
    expect(acts.acts.map(({ by }) => by)).toEqual([...Array<string>(5).fill('Ines'), 'Tom']);
    expect((await other.store.past('mill')).cycles).toHaveLength(1);
  });
});
