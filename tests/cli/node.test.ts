/** `stillwell node` beside no server, and what of it a running server does. */
import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.ts';
import { STORE_FILE } from '../../src/server/server.ts';
import { openStore } from '../../src/store/open-store.ts';
import { packText, times } from '../server/live/rig.ts';
import { runCli } from './command-line.ts';
import { fileOf, openShop } from './shop.ts';

let data = '';
let settings = '';
beforeEach(() => {
  settings = fileOf('settings.json', '{"web":{"port":1}}');
  data = join(dirname(settings), 'data');
});

/** Exit code, and what is printed on both streams. */
async function run(...args: string[]): Promise<string[]> {
  const { code, out, err } = await runCli(['node', ...args, '--data', data, '--settings', settings]);
  return [String(code), ...out, ...err];
}

async function keep(): Promise<void> {
  mkdirSync(data);
  const store = openStore(join(data, STORE_FILE));
  const known = (node: string) => ({ change: 'node', row: { node, approved: true } }) as const;
  await store.commit([
    known('typo'),
    known('barn'),
    known('weir'),
    { change: 'act', row: { id: 'a', atMs: 1, well: 'weir', kind: 'visit-opened', body: {} } },
  ]);
  await store.close();
}

describe('stillwell node', () => {
  it('gives a credential with the names that it speaks for, lists it and takes it away', async () => {
    const [code, user, password] = await run('add', 'gate', '--speaks-for', 'pond');
    expect([code, user]).toEqual(['0', 'User name  gate']);
    expect(password).toMatch(/^Password   [A-Z2-7-]+$/);
    expect((await run('list'))[1]).toMatch(/^gate {2}since .* speaks for pond$/);
    expect((await run('remove', 'gate'))[0]).toBe('0');
    expect((await run('list'))[1]).toMatch(/^No node has a password yet/);
  });
});

describe('stillwell node forget', () => {
  it('forgets nodes out of the data folder where no server runs, each by itself', async () => {
    await keep();
    expect(await run('forget', 'typo', 'weir', 'nobody', 'barn')).toEqual([
      '2',
      'typo was forgotten.',
      'barn was forgotten.',
      'Cannot forget weir: the well weir has logbook entries, and they are kept',
      'Cannot forget nobody: unknown node',
    ]);
    const store = openStore(join(data, STORE_FILE));
    expect((await store.nodes()).map(({ node }) => node)).toEqual(['weir']);
    await store.close();
  });

  it('asks the server that the settings name where one writes to the data folder', async () => {
    await keep();
    const store = openStore(join(data, STORE_FILE));
    await expect(run('forget', 'typo')).rejects.toThrow('Cannot reach http://127.0.0.1:1');
    await store.close();
  });

  it('forgets a node of a running server, and says what the server says', async () => {
    const { station, run: ask } = await openShop();
    const send = (topic: string, text: string): void =>
      station.live.receive({ topic, payload: new TextEncoder().encode(text), retained: false });
    send('wells/typo/presence', '"here"');
    send('wells/barn/readings', packText('barn', { fromMs: Date.now(), seq: 1, current: times(3, 0.1) }));
    await station.live.drained();
    expect(await ask('node', 'forget', 'typo', 'barn', 'nobody')).toEqual({
      code: 2,
      out: ['typo was forgotten.'],
      err: ['Cannot forget barn: it has sent readings, and they are kept', 'There is no node nobody.'],
    });
    expect([...station.live.state().pipelines.keys()]).toEqual(['barn']);
    expect((await station.store.nodes()).map(({ node }) => node)).toEqual(['barn']);
  });

  it.each([
    [['forget'], 'Cannot run stillwell node forget: name must be given'],
    [['forget', 'typo'], 'Cannot forget a node: there is no database in'],
    [
      ['list', '--server', 'http://127.0.0.1:1'],
      'Cannot read --server: stillwell node list has no such option',
    ],
    [['drop', 'typo'], 'Cannot run "stillwell node drop": it must be one of add, list, remove, forget'],
  ])('%j is refused', async (args, why) => {
    const error: unknown = await run(...args).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(UsageError);
    expect(String(error)).toContain(why);
  });
});
