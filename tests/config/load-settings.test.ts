/** Settings and secrets from real files in a folder of their own. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inspect } from 'node:util';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadSettings } from '../../src/config/load-settings.ts';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import { readSecrets } from '../../src/config/secrets.ts';
import { SettingsError } from '../../src/config/settings.ts';

/** The example secret of Standard Webhooks 1.0.0. */
const WEBHOOK_SECRET = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'settings-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

function write(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

function writeSettings(settings: unknown): string {
  return write('settings.json', JSON.stringify(settings));
}

describe('loadSettings', () => {
  test('reads a named file, and the command line wins over the environment', () => {
    const path = writeSettings({ units: 'metric' });
    expect(loadSettings({ STILLWELL_SETTINGS: path })).toMatchObject({ path, settings: { units: 'metric' } });
    expect(loadSettings({ STILLWELL_SETTINGS: 'nowhere' }, path).settings.units).toBe('metric');
  });

  test('a named file must be there', () => {
    const path = join(folder, 'none.json');
    expect(() => loadSettings({}, path)).toThrow(
      `Cannot read settings ${path}: there is no such file or folder. Check the path`,
    );
    expect(() => loadSettings({}, folder)).toThrow(/it is a folder, and a file is needed\. Name a file/);
  });

  test('a file too large is some other file', () => {
    const path = write('settings.json', ' '.repeat(1024 * 1024 + 1));
    expect(() => loadSettings({}, path)).toThrow('the file must be at most 1048576 bytes');
  });
});

describe('secrets', () => {
  test('come from files, without the line’s end', () => {
    const passwordFile = write('password', 'hush hush\n');
    const { secrets } = loadSettings(
      {},
      writeSettings({ broker: { url: 'mqtt://b.example', passwordFile } }),
    );
    expect(secrets.brokerPassword?.()).toBe('hush hush');
  });

  test('or from the environment, which wins', () => {
    const passwordFile = write('password', 'from the file');
    const { secrets } = loadSettings(
      { STILLWELL_BROKER_PASSWORD: 'from outside', STILLWELL_SMTP_PASSWORD: 'mail' },
      writeSettings({
        broker: { url: 'mqtt://b.example', passwordFile },
        smtp: { host: 'h', user: 'u', from: 'a@b.example' },
      }),
    );
    expect([secrets.brokerPassword?.(), secrets.channels['smtp']?.()]).toEqual(['from outside', 'mail']);
  });

  test('of a webhook by its place in the settings', () => {
    const settings = {
      notices: [
        { name: 'office', webhook: { url: 'https://x.example', secretEnv: 'STILLWELL_SECRET_OFFICE' } },
      ],
    };
    const { secrets } = loadSettings({ STILLWELL_SECRET_OFFICE: WEBHOOK_SECRET }, writeSettings(settings));
    expect(secrets.channels['notices.0.webhook']?.()).toBe(WEBHOOK_SECRET);
  });

  test('show nothing when printed', () => {
    const secrets = readSecrets(
      {
        ...DEFAULT_SETTINGS,
        broker: { kind: 'external', url: 'mqtt://b.example', clientId: 'c', protocolVersion: 5 },
      },
      { STILLWELL_BROKER_PASSWORD: 'hush' },
    );
    expect(secrets.brokerPassword?.()).toBe('hush');
    expect(
      `${JSON.stringify(secrets)} ${inspect(secrets, { depth: 9, showHidden: true })} ${String(secrets.brokerPassword)}`,
    ).not.toContain('hush');
  });

  test.each<[string, (folder: string) => unknown, Record<string, string>, RegExp]>([
    [
      'a file that is not there',
      (at) => ({ broker: { url: 'mqtt://b.example', passwordFile: join(at, 'none') } }),
      {},
      /broker\.passwordFile must be a file that can be read: ".*none"$/,
    ],
    [
      'a file of two lines',
      (at) => ({ broker: { url: 'mqtt://b.example', passwordFile: join(at, 'two') } }),
      {},
      /broker\.passwordFile must hold one line: ".*two"$/,
    ],
    [
      'a variable that is not set',
      () => ({ notices: [{ name: 'a', webhook: { url: 'https://x.example', secretEnv: 'HOOK' } }] }),
      {},
      /notices\.0\.webhook\.secretEnv must name a variable that is set: HOOK$/,
    ],
    [
      'a webhook secret of the wrong form',
      () => ({ notices: [{ name: 'a', webhook: { url: 'https://x.example', secretEnv: 'HOOK' } }] }),
      { HOOK: 'hush' },
      /notices\.0\.webhook\.secretEnv must hold whsec_ and the base64 of 24 to 64 bytes: \(not shown\)$/,
    ],
  ])('%s is told in one line', (_name, settings, env, problem) => {
    write('two', 'hush\nhush\n');
    const path = writeSettings(settings(folder));
    expect(() => loadSettings(env, path)).toThrow(SettingsError);
    expect(() => loadSettings(env, path)).toThrow(problem);
  });
});
