/** `stillwell alarms` and `stillwell refused` against the invented farm on a port. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { startFakeServer, type FakeServer } from '../browser/support/fake-server.ts';
import { runCli, type Ran } from './command-line.ts';
import { openShop } from './shop.ts';

let web: FakeServer;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'alarms-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>x</title>');
  web = await startFakeServer(folder);
});
afterAll(async () => {
  await web.close();
  rmSync(folder, { recursive: true });
});

const run = (...args: string[]): Promise<Ran> => runCli([...args, '--server', web.url]);
const json = async (...args: string[]): Promise<AlarmAnswer[]> =>
  (await run(...args, '--json')).out.map((line) => JSON.parse(line) as AlarmAnswer);

describe('stillwell alarms', () => {
  it('lists active alarms first, then the newest', async () => {
    const all = await json('alarms');
    const active = all.filter((one) => one.active);
    expect(active.length).toBeGreaterThan(1);
    expect(all.length).toBeGreaterThan(active.length);
    expect(all.slice(0, active.length)).toEqual(active);
    const times = active.map(({ raisedMs }) => raisedMs);
    expect(times).toEqual(times.toSorted((a, b) => b - a));
    expect(await json('alarms', '--active')).toEqual(active);
  });

  it('prints one line for each, with its title and what was measured', async () => {
    const [first] = await json('alarms', '--active');
    const { out } = await run('alarms', '--active');
    expect(out[0]).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d UTC {2}/);
    expect(out[0]).toContain(`: ${first?.why}`);
  });

  it('lists one well, and refuses an unknown one', async () => {
    const [{ well = '' } = {}] = await json('alarms', '--active');
    const of = await json('alarms', well);
    expect(new Set(of.map((one) => one.well))).toEqual(new Set([well]));
    await expect(run('alarms', 'nowhere')).rejects.toThrow('nowhere');
  });

  it('says when there are none', async () => {
    const { run: ask } = await openShop();
    expect((await ask('alarms')).out).toEqual(['No alarms.']);
    expect((await ask('alarms', '--active')).out).toEqual(['No active alarms.']);
  });
});

describe('stillwell refused', () => {
  it('counts what was refused by reason, and lists the last ones with their topic', async () => {
    const { station, run: ask } = await openShop();
    expect((await ask('refused')).out).toEqual(['No message was refused.']);
    const payload = new TextEncoder().encode('no pack');
    for (const node of ['barn', 'mill'])
      station.live.receive({ topic: `wells/${node}/readings`, payload, retained: false });
    await station.live.drained();
    const { out } = await ask('refused', '--limit', '1');
    expect(out[0]).toMatch(/^\S+ {2}2 {2}last \d{4}-\d\d-\d\d .* UTC$/);
    expect(out[2]).toBe('Last messages:');
    expect(out[3]).toContain('wells/mill/readings');
    expect(out).toHaveLength(4);
    const [line = ''] = (await ask('refused', '--json')).out;
    expect(JSON.parse(line)).toMatchObject({ counts: [{ count: 2 }], last: [{}, {}] });
  });
});
