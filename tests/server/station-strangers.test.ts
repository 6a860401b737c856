/**
 * What a whole server does about others: its data folder is closed to them, and what they try is
 * told and counted.
 */
import { mkdtempSync, chmodSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import { MAX_LINES_EACH } from '../../src/server/repeats.ts';
import { openServer, type RunningServer } from '../../src/server/server.ts';

let dataDir = '';
const said: string[] = [];
beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'stillwell-strangers-'));
  said.length = 0;
});
afterEach(() => rmSync(dataDir, { recursive: true }));

const start = (): Promise<RunningServer> =>
  openServer({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir,
      broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
    },
    secrets: { channels: {} },
    version: '0.0.0',
    now: () => Date.UTC(2026, 4, 2),
    log: (level, sentence) => said.push(`${level}: ${sentence}`),
    allowLocal: false,
    autoTick: false,
  });

test('a few refused logins are told, the rest counted by address', async () => {
  const station = await start();
  const tries = MAX_LINES_EACH + 3;
  const url = `mqtt://127.0.0.1:${station.brokerPort}`;
  for (let n = 0; n < tries; n++)
    await expect(connectAsync(url, { username: `name-${n}`, password: 'x' }, false)).rejects.toThrow();
  await station.close();
  const about = said.filter((line) => line.includes('127.0.0.1'));
  expect(about).toHaveLength(MAX_LINES_EACH + 1);
  expect(about[0]).toMatch(/^warn: .*"name-0" at 127\.0\.0\.1: no such node has a credential\.$/u);
  expect(about.at(-1)).toBe('warn: And 3 more from 127.0.0.1.');
});

test.skipIf(process.platform === 'win32')(
  'an open data folder is closed before anything is written',
  async () => {
    chmodSync(dataDir, 0o755);
    writeFileSync(join(dataDir, 'stillwell.db'), '', { mode: 0o644 });
    const station = await start();
    expect(statSync(dataDir).mode & 0o777).toBe(0o700);
    for (const file of ['stillwell.db', 'stillwell.db-wal', 'stillwell.db-shm'])
      expect([file, statSync(join(dataDir, file)).mode & 0o777]).toEqual([file, 0o600]);
    expect(said.filter((line) => line.includes('files and folders in the data folder'))).toHaveLength(1);
    await station.close();
  },
);
