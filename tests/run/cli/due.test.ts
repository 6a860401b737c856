/** `stillwell due` against the invented farm on a port, as it is typed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Misuse, type Io } from '../../../src/run/cli/command.ts';
import { dueCommand } from '../../../src/run/cli/due.ts';
import { startFakeServer, type FakeServer } from '../../browser/support/fake-server.ts';

let web: FakeServer;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'due-'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>x</title>');
  web = await startFakeServer(folder);
});
afterAll(async () => {
  await web.close();
  rmSync(folder, { recursive: true });
});

async function due(...args: string[]): Promise<string[]> {
  const said: string[] = [];
  const io: Io = {
    out: (line) => said.push(line),
    err: (line) => said.push(line),
    env: { USER: 'ines' },
    progress: false,
  };
  await dueCommand.run([...args, '--server', web.url], io);
  return said;
}

describe('stillwell due', () => {
  test('lists what is due, and a check that was done is listed no more', async () => {
    const before = await due('house-hill');
    expect(before.some((line) => /precharge +Tank precharge: target 38 psi \(262 kPa\)/.test(line))).toBe(
      true,
    );
    expect(before.at(-1)).toMatch(/^\d+ due by 2026-\d\d-\d\d on 1 well; \d+ overdue$/);
    const [told] = await due(
      'done',
      'house-hill',
      'precharge',
      '--value',
      '36 psi',
      '--left',
      '38 psi',
      '--was',
      'put-right',
      '--on',
      '2026-07-01',
    );
    expect(told).toBe('Written down. Tank precharge is next due on 2027-07-01.');
    expect((await due('house-hill')).some((line) => line.includes('precharge'))).toBe(false);
    expect(
      (await due('house-hill', '--until', '2027-07-01')).some((line) => line.startsWith('2027-07-01')),
    ).toBe(true);
  });

  test('says the same as JSON, a line a check', async () => {
    const lines = await due('--json', '--days', '400');
    expect(lines.length).toBeGreaterThan(10);
    for (const line of lines) expect(JSON.parse(line)).toHaveProperty('because');
  });

  test.each<[args: string[], says: string]>([
    [['done', 'house-hill'], 'Two names are expected'],
    [['done', 'house-hill', 'tyres'], 'has no check tyres'],
    [['house-hill', 'orchard'], 'one well at most'],
    [['--until', '2027-01-01', '--days', '3'], 'give one of them'],
  ])('%j is a mistake that is named', async (args, says) => {
    await expect(due(...args)).rejects.toThrow(Misuse);
    await expect(due(...args)).rejects.toThrow(says);
  });

  test.each<[args: string[], says: string]>([
    [['nowhere'], 'No well is called nowhere'],
    [['--until', '2027-02-30'], 'until'],
    [['done', 'house-hill', 'precharge', '--value', '38 ft'], 'value must be a pressure'],
    [['done', 'house-hill', 'precharge', '--on', '2026-02-30'], 'at must be a time'],
  ])('%j is refused in the words of the server', async (args, says) => {
    await expect(due(...args)).rejects.toThrow(says);
  });
});
