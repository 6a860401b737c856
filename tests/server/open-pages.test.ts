/** When the calendar answers on the farm's network, and when it stays closed. */
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { CalendarAddressAnswer } from '../../shared/api/calendar-address.ts';
import { DEFAULT_SETTINGS } from '../../src/config/read-settings.ts';
import type { Settings } from '../../src/config/settings.ts';
import { localAddresses } from '../../src/server/local-networks.ts';
import { openServer, type RunningServer } from '../../src/server/server.ts';

const ends: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const [OWN] = localAddresses(networkInterfaces());
const logged: string[] = [];

async function start(
  more: Pick<Settings, 'calendar'> & { brokerHost?: string | undefined },
): Promise<RunningServer> {
  const dataDir = mkdtempSync(join(tmpdir(), 'stillwell-pages-'));
  ends.push(() => rmSync(dataDir, { recursive: true, force: true }));
  const station = await openServer({
    settings: {
      ...DEFAULT_SETTINGS,
      dataDir,
      broker: { kind: 'built-in', host: more.brokerHost ?? '127.0.0.1', port: 0 },
      web: { host: '127.0.0.1', port: 0 },
      calendar: more.calendar,
    },
    secrets: { channels: {} },
    version: '0.0.0',
    now: Date.now,
    log: (_level, sentence) => void logged.push(sentence),
    allowLocal: true,
    autoTick: false,
  });
  ends.push(() => station.close());
  return station;
}

async function address(station: RunningServer, want?: string): Promise<CalendarAddressAnswer> {
  const url = new URL('/api/calendar-address', station.web.url);
  const init = {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ action: want }),
  };
  return (await (await fetch(url, want === undefined ? {} : init)).json()) as CalendarAddressAnswer;
}

describe('the calendar for phones', () => {
  it.each<[what: string, settings: Parameters<typeof start>[0]]>([
    ['this computer alone', { calendar: { port: 0 } }],
    [
      'a broker for all, a calendar that is kept closed',
      { brokerHost: '0.0.0.0', calendar: { host: '::1', port: 0 } },
    ],
  ])('stays closed: %s', async (_what, settings) => {
    const station = await start(settings);
    expect(station.web.calendar).toBeUndefined();
    expect((await address(station)).server).toEqual({
      is: 'closed',
      hosts: localAddresses(networkInterfaces()),
    });
  });

  it('opens where the broker was opened to the network, on a port of its own, and is gone with the server', async (context) => {
    if (OWN === undefined) context.skip('this machine is on no network');
    const station = await start({ brokerHost: OWN, calendar: { port: 0 } });
    expect(station.web.calendar).toEqual({ host: OWN, port: expect.any(Number) });
    const made = await address(station, 'ensure');
    const [url = ''] = made.address?.urls ?? [];
    expect(new URL(url).host).toBe(`${OWN}:${station.web.calendar?.port}`);
    const feed = await fetch(url);
    expect(feed.status).toBe(200);
    expect(await feed.text()).toContain('BEGIN:VCALENDAR');
    // The pages do not answer there.
    expect((await fetch(new URL('/', url))).status).toBe(404);
    expect(logged.join('\n')).not.toContain(new URL(url).pathname.split('/')[1]);
    await station.close();
    await expect(fetch(url)).rejects.toThrow();
  });

  it('opened to all networks, is told by this computer’s own addresses', async () => {
    const station = await start({ brokerHost: '0.0.0.0', calendar: { port: 0 } });
    const { server, address: made } = await address(station, 'ensure');
    expect(server).toEqual({ is: 'open', hosts: localAddresses(networkInterfaces()) });
    expect(made?.urls.map((url) => new URL(url).hostname)).toEqual(server.hosts);
  });

  it('whose port is taken is said, and the wells are watched all the same', async () => {
    const taken = createServer();
    await new Promise<void>((done) => taken.listen(0, '0.0.0.0', done));
    ends.push(() => new Promise<void>((done) => taken.close(() => done())));
    const at = taken.address();
    const port = typeof at === 'object' && at ? at.port : 0;
    const station = await start({ brokerHost: '0.0.0.0', calendar: { port } });
    expect((await fetch(new URL('/health', station.web.url))).status).toBe(200);
    const { server } = await address(station);
    expect(server).toMatchObject({
      is: 'closed',
      error: expect.stringContaining('another program has this port'),
    });
    expect(logged.at(-1)).toContain('The wells are still being watched');
  });
});
