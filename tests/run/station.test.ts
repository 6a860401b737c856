/** The parts of a server together: a card file is taken when it is new or changed, and never over what was changed on the page. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import { openStation, type Station } from '../../src/run/station.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const card = (motor: string): Record<string, unknown> => ({ well: 'mill', pump: { motor } });

/** Starts a server on `folder`, does `work` with it, ends it, and says which motors the well's cards have had. */
async function start(folder: string, work: (station: Station) => void = () => undefined): Promise<string[]> {
  const station = await openStation({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir: join(folder, 'data'),
      cardsDir: join(folder, 'cards'),
      broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
    },
    secrets: { webhooks: {} },
    version: '0.0.0',
    now: Date.now,
    log: () => undefined,
    allowLocal: true,
    beatsByItself: false,
  });
  work(station);
  const acts = station.store.acts({ fromMs: 0 }).filter((row) => row.kind === 'card-changed');
  await station.close();
  return acts.map((row) => (row.body as { card: { pump: { motor: string } } }).card.pump.motor);
}

describe('card files', () => {
  it('are taken when new or changed, and leave alone what was changed on the page since', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillwell-station-'));
    ends.push(() => rmSync(folder, { recursive: true, force: true }));
    mkdirSync(join(folder, 'cards'));
    const write = (motor: string): void =>
      writeFileSync(join(folder, 'cards', 'mill.json'), JSON.stringify(card(motor)));
    write('1 hp');
    expect(await start(folder)).toEqual(['1 hp']);
    expect(
      await start(folder, ({ live }) => void live.act({ kind: 'card-changed', card: card('2 hp') })),
    ).toEqual(['1 hp', '2 hp']);
    expect(await start(folder)).toEqual(['1 hp', '2 hp']);
    write('3 hp');
    expect(await start(folder)).toEqual(['1 hp', '2 hp', '3 hp']);
  });
});
