/** Where a server keeps everything, and what another command needs to find it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.ts';
import { locate } from '../../src/cli/place.ts';
import { folder } from './program.ts';

let here: ReturnType<typeof folder>;
let settings: string;
beforeAll(() => {
  here = folder();
  settings = join(here.path, 'settings.json');
  writeFileSync(settings, '{"dataDir":"/srv/wells","web":{"port":8500}}');
  writeFileSync(join(here.path, 'bad.json'), '{"brokr":{}}');
});
afterAll(() => here.remove());

const at = (given: { settings?: string; data?: string }, env: Record<string, string> = {}) =>
  locate({ out: () => undefined, err: () => undefined, env, progress: false }, given);

describe('locate', () => {
  it('names no options where everything is as it is by default', () => {
    expect(at({}, { STILLWELL_UNITS: 'us' })).toMatchObject({
      dataDir: '.stillwell',
      defaultServer: 'http://127.0.0.1:8420',
      options: '',
    });
  });

  it('names the settings file and the data folder by their whole paths', () => {
    const own = ` --settings ${settings} --data /srv/wells`;
    expect(at({ settings })).toMatchObject({ defaultServer: 'http://127.0.0.1:8500', options: own });
    expect(at({}, { STILLWELL_SETTINGS: settings }).options).toBe(own);
    expect(at({}, { STILLWELL_DATA_DIR: '/srv/alder' }).options).toBe(' --data /srv/alder');
    expect(at({ data: '/srv/Alder Bench' }).options).toBe(' --data "/srv/Alder Bench"');
  });

  it('refuses settings that cannot be used as a mistake', () => {
    expect(() => at({ settings: join(here.path, 'bad.json') })).toThrow(UsageError);
    expect(() => at({ settings: here.path })).toThrow(/it is a folder, and a file is needed/);
  });
});
