/** `stillwell due` against the invented farm on a port, as it is typed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import { UsageError } from '../../../src/cli/command.ts';
import { startFakeServer, type FakeServer } from '../../browser/support/fake-server.ts';
import { runCli } from '../command-line.ts';

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
  const { out, err } = await runCli(['due', ...args, '--server', web.url], { USER: 'ines' });
  return [...out, ...err];
}

describe('stillwell due', () => {
  test('lists what is due, and a check that was done is listed no more', async () => {
    const before = await due('house-hill');
    expect(before.some((line) => /^\d{4}-\d\d-\d\d +house-hill .*precharge/.test(line))).toBe(true);
    expect(before).toContainEqual(
      expect.stringMatching(/^\d+ due by 2026-\d\d-\d\d on 1 well; \d+ overdue$/),
    );
    expect(before.join(' ')).toContain('Never recorded');
    const [reported] = await due(
      'done',
      'house-hill',
      'precharge',
      '--value',
      '36 psi',
      '--left',
      '38 psi',
      '--result',
      'put-right',
      '--on',
      '2026-07-01',
    );
    expect(reported).toBe('Recorded. Tank precharge is next due on 2027-07-01.');
    expect((await due('house-hill')).some((line) => line.includes('precharge'))).toBe(false);
    const next = await due('house-hill', '--until', '2027-07-01');
    expect(next).toContainEqual(
      expect.stringMatching(/^2027-07-01 .*precharge +Tank precharge: target 38 psi \(262 kPa\)$/),
    );
  });

  test('keeps a photo and a remark with it, and says what was kept as JSON', async () => {
    const photo = join(folder, 'cap.txt');
    writeFileSync(photo, 'bolts tight');
    const args = ['done', 'mill-yard', 'well-cap', '--note', 'Bolts tight', '--photo', photo, '--json'];
    const [line = ''] = await due(...args);
    const kept = JSON.parse(line) as EntryOf<'check'>;
    expect(kept).toMatchObject({ kind: 'check', by: 'ines', body: { text: 'Bolts tight' } });
    const [hash] = kept.body.papers!;
    expect(await (await fetch(new URL(`/api/documents/${hash}`, web.url))).text()).toBe(
      readFileSync(photo, 'utf8'),
    );
  });

  test('what waits for a well that is laid up stands apart', async () => {
    const body = JSON.stringify({ act: { kind: 'laid-up', well: 'orchard' } });
    const headers = { 'content-type': 'application/json' };
    await fetch(new URL('/api/acts', web.url), { method: 'POST', headers, body });
    const lines = await due('orchard', '--days', '400');
    expect(lines.at(-1)).toMatch(/^orchard {2}laid up since 2026-\d\d-\d\d {2}.*precharge/);
  });

  test('says the same as JSON, a line a check', async () => {
    const lines = await due('--json', '--days', '400');
    expect(lines.length).toBeGreaterThan(10);
    for (const line of lines) expect(JSON.parse(line)).toHaveProperty('reasons');
  });

  test('plans days for what was never written down, and sets them', async () => {
    const shown = await due('plan', '--from', '2026-08-01', '--wells-a-day', '1');
    // The first of August is a Saturday.
    expect(shown[0]).toMatch(/^2026-08-03 {2}\S+ {2}\(harrow-bend\) {2}.*pressure-gauge/);
    expect(shown[1]).toMatch(/^2026-08-04/);
    expect(shown.at(-1)).toContain('Nothing was saved. To save these dates, add --write.');
    expect((await due('house-hill', '--until', '2026-08-31')).join(' ')).toContain('Never recorded');
    const set = await due('plan', '--from', '2026-08-01', '--wells-a-day', '1', '--write');
    expect(set.at(-1)).toMatch(/^Saved: \d+ checks on \d wells?/);
    const after = await due('house-hill', '--until', '2026-08-31');
    expect(after.join(' ')).not.toContain('Never recorded');
    expect(after.some((line) => /^2026-08-0\d .*pressure-gauge/.test(line))).toBe(true);
    expect((await due('plan')).at(-1)).toContain('Nothing to plan: every check has a date.');
  });

  test.each<[args: string[], says: string]>([
    [['plan', '--from', '2026-02-30'], 'Cannot read --from'],
    [['plan', '--from', '2020-01-01'], '--from must not be in the past'],
    [['plan', '--wells-a-day', '0'], 'a whole number from 1 to 100'],
    [['plan', 'house-hill'], 'Cannot read "house-hill"'],
    [['done', 'house-hill', 'precharge', '--photo', 'no-such.jpg'], 'there is no such file'],
    [['done', 'house-hill', 'precharge', '--value', '38 ft'], 'value must be a pressure'],
    [['done', 'house-hill', 'precharge', '--on', '2026-02-30'], 'Cannot read --on'],
    [['done', 'house-hill'], 'give a well and a check, or --table'],
    [['done', 'house-hill', 'tyres'], 'Cannot record tyres: it must be one of the checks of house-hill'],
    [['house-hill', 'orchard'], 'Cannot read "orchard": too many arguments. Usage: stillwell due [well]'],
    [['--until', '2027-01-01', '--days', '3'], 'Give one of them'],
    [['--subscribe', '--remove-address'], 'removes the address'],
  ])('%j is a mistake that is named', async (args, says) => {
    await expect(due(...args)).rejects.toThrow(UsageError);
    await expect(due(...args)).rejects.toThrow(says);
  });

  test.each<[args: string[], says: string]>([
    [['nowhere'], 'Unknown well: nowhere'],
    [['--until', '2027-02-30'], 'until'],
  ])('%j is refused in the words of the server', async (args, says) => {
    await expect(due(...args)).rejects.toThrow(says);
  });
});

describe('stillwell due --subscribe', () => {
  test('tells an address that answers, the same one again, and a new one that takes it away', async () => {
    const [first = '', words] = await due('--subscribe');
    expect(first).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/[a-z2-7]{28}\/checks\.ics$/);
    expect(words).toContain('Anyone on this network with this address');
    expect((await fetch(first)).status).toBe(200);
    expect((await due('--subscribe'))[0]).toBe(first);
    const [own = ''] = await due('orchard', '--subscribe');
    expect(own).toMatch(/\/orchard\/checks\.ics$/);
    const [second = ''] = await due('--new-address');
    expect([(await fetch(first)).status, (await fetch(second)).status]).toEqual([404, 200]);
    await due('--remove-address');
    expect([(await fetch(second)).status, (await fetch(own)).status]).toEqual([404, 200]);
  });

  test('of a well that is not there is told, and where no phone could reach it the command that opens it', async () => {
    await expect(due('nowhere', '--subscribe')).rejects.toThrow('Unknown well: nowhere');
    const { calendarServer } = web.farm;
    const open = calendarServer.now;
    calendarServer.now = { is: 'closed', hosts: ['192.168.7.20'] };
    expect(await due('--subscribe')).toEqual([
      'No phone can reach the calendar: the server answers only this computer. Start it with: stillwell serve --listen 192.168.7.20',
    ]);
    calendarServer.now = { is: 'closed', hosts: [], error: 'Cannot open the calendar for phones' };
    expect(await due('--subscribe')).toEqual(['Cannot open the calendar for phones']);
    calendarServer.now = open;
  });
});
