/** `stillwell node` beside no server, and what of it a running server does. */
import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.ts';
import { nodeCommand } from '../../src/cli/node.ts';
import { STORE_FILE } from '../../src/server/server.ts';
import { openStore } from '../../src/store/open-store.ts';
import { packText, times } from '../server/live/rig.ts';
import { fileOf, openShop } from './shop.ts';

let data = '';
let settings = '';
beforeEach(() => {
  settings = fileOf('settings.json', '{"web":{"port":1}}');
  data = join(dirname(settings), 'data');
});

/** Exit code, and what is said on both lines. */
async function run(...args: string[]): Promise<string[]> {
  const said: string[] = [];
  const say = (line: string): void => void said.push(line);
  const io = { out: say, err: say, env: {}, progress: false };
  const code = await nodeCommand.run([...args, '--data', data, '--settings', settings], io);
  return [String(code), ...said];
}

function keep(): void {
  mkdirSync(data);
  const store = openStore(join(data, STORE_FILE));
  const known = (node: string) => ({ change: 'node', row: { node, approved: true } }) as const;
  store.commit([
    known('typo'),
    known('barn'),
    known('weir'),
    { change: 'act', row: { id: 'a', atMs: 1, well: 'weir', kind: 'visit-opened', body: {} } },
  ]);
  store.close();
}

describe('stillwell node', () => {
  it('gives a credential with the names that it speaks for, lists it and takes it away', async () => {
    const [code, user, password] = await run('add', 'gate', '--speaks-for', 'pond');
    expect([code, user]).toEqual(['0', 'User name  gate']);
    expect(password).toMatch(/^Password   [A-Z2-7-]+$/);
    expect((await run('list'))[1]).toMatch(/^gate {2}since .* speaks for pond$/);
    expect((await run('remove', 'gate'))[0]).toBe('0');
    expect((await run('list'))[1]).toMatch(/^No node has a credential yet/);
  });
});

describe('stillwell node forget', () => {
  it('forgets nodes out of the data folder where no server runs, each by itself', async () => {
    keep();
    expect(await run('forget', 'typo', 'weir', 'nobody', 'barn')).toEqual([
      '2',
      'typo is forgotten.',
      'Cannot forget weir: something was written down of the well weir, and it is kept',
      'Cannot forget nobody: no node of this name is known',
      'barn is forgotten.',
    ]);
    const store = openStore(join(data, STORE_FILE));
    expect(store.nodes().map(({ node }) => node)).toEqual(['weir']);
    store.close();
  });

  it('asks the server that the settings name where one writes to the data folder', async () => {
    keep();
    const store = openStore(join(data, STORE_FILE));
    await expect(run('forget', 'typo')).rejects.toThrow('Cannot reach http://127.0.0.1:1');
    store.close();
  });

  it('forgets a node of a running server, and says what the server says', async () => {
    const { station, run: ask } = await openShop();
    const send = (topic: string, text: string): void =>
      station.live.receive({ topic, payload: new TextEncoder().encode(text), retained: false });
    send('wells/typo/presence', '"here"');
    send('wells/barn/readings', packText('barn', { fromMs: Date.now(), seq: 1, current: times(3, 0.1) }));
    await station.live.drained();
    expect(await ask(nodeCommand, 'forget', 'typo', 'barn', 'nobody')).toEqual({
      code: 2,
      out: ['typo is forgotten.'],
      err: ['Cannot forget barn: it has sent readings, and they are kept', 'No node called nobody is known.'],
    });
    expect([...station.live.state().pipelines.keys()]).toEqual(['barn']);
    expect(station.store.nodes().map(({ node }) => node)).toEqual(['barn']);
  });

  it.each([
    [['forget'], 'A name is expected: stillwell node forget NAME'],
    [['forget', 'typo'], 'Cannot forget a node: nothing is kept in'],
    [['list', '--server', 'http://127.0.0.1:1'], 'Cannot use --server: only node forget asks a server'],
    [['drop', 'typo'], 'Cannot do "drop": add, remove, forget or list is expected'],
  ])('%j is refused', async (args, why) => {
    const error: unknown = await run(...args).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(UsageError);
    expect(String(error)).toContain(why);
  });
});
