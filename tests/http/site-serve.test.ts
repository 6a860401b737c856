import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeApp } from '../../src/http/app.ts';
import { serveWeb } from '../../src/http/serve.ts';
import { readSite } from '../../src/http/site.ts';
import { fakeFarm } from '../browser/support/fake-deps.ts';
import { openTestApp } from './support.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'site-'));
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Wells</title>');
  writeFileSync(join(folder, 'assets', 'page-1a2B3c_d.js'), 'export {};');
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the site', () => {
  test('the page is asked for anew each time, and 304 where it is the same', async () => {
    const { get } = openTestApp({ site: readSite(folder) });
    const page = await get('/');
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(page.headers.get('cache-control')).toBe('no-cache');
    const again = await get('/', { 'if-none-match': page.headers.get('etag') ?? '' });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');
  });

  test('a file named by its hash is kept for ever, and packed where the browser takes it', async () => {
    const { get } = openTestApp({ site: readSite(folder) });
    const file = await get('/assets/page-1a2B3c_d.js', { 'accept-encoding': 'gzip, br' });
    expect(file.headers.get('cache-control')).toContain('immutable');
    expect(file.headers.get('content-encoding')).toBe('gzip');
    expect(gunzipSync(await file.arrayBuffer()).toString()).toBe('export {};');
  });

  test.each(['/../package.json', '/assets/%2e%2e/%2e%2e/package.json', '/assets/none.js'])(
    '%s is nothing',
    async (path) => {
      const { get } = openTestApp({ site: readSite(folder) });
      expect((await get(path)).status).toBe(404);
    },
  );

  test('a folder without pages is said so', () => {
    expect(() => readSite(join(folder, 'assets'))).toThrow(/must hold index.html/);
    expect(() => readSite(join(folder, 'none'))).toThrow(/can’t be read/);
  });
});

describe('serveWeb', () => {
  test('answers on a port of this machine; a taken port and an address of the network are refused in one line', async () => {
    const app = makeApp(fakeFarm().deps);
    const web = await serveWeb(app, { host: '127.0.0.1', port: 0 });
    const answer = await fetch(`${web.url}health`);
    expect(answer.status).toBe(200);
    await expect(serveWeb(app, { host: '127.0.0.1', port: web.port })).rejects.toThrow(
      /another program has this port/,
    );
    await expect(serveWeb(app, { host: '0.0.0.0', port: 0 })).rejects.toThrow(/must stay on this computer/);
    const live = await fetch(`${web.url}api/live`);
    expect(live.status).toBe(200);
    await web.close();
    await expect(fetch(`${web.url}health`)).rejects.toThrow();
    await live.body?.cancel().catch(() => {});
  });
});
