/**
 * The invented farm on a port, with live readings each second; as a program
 * (`npx tsx …/fake-server.ts [PORT]`) for looking at pages.
 */
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { makeApp } from '../../../src/http/app.ts';
import { openCalendarServer } from '../../../src/http/calendar-server.ts';
import { LiveHub } from '../../../src/http/live-hub.ts';
import { calendarAtPath } from '../../../src/http/calendar-at-path.ts';
import { serveWeb } from '../../../src/http/serve.ts';
import type { WebServer } from '../../../src/http/serve.ts';
import { readSite } from '../../../src/http/site.ts';
import { fakeFarm, secondOf } from './fake-deps.ts';
import type { FakeFarm } from './fake-deps.ts';
import { STORIES } from './farm.ts';

export interface FakeServer extends WebServer {
  farm: FakeFarm;
}

/** `folder`: the built pages. */
export async function startFakeServer(folder: string, port = 0): Promise<FakeServer> {
  const farm = fakeFarm();
  const hub = new LiveHub(farm.deps);
  const web = await serveWeb(makeApp(farm.deps, { site: readSite(folder), hub }), {
    host: '127.0.0.1',
    port,
  });
  const phones = await openCalendarServer({
    host: '127.0.0.1',
    port: 0,
    feed: calendarAtPath(farm.deps),
    isOnLocalNetwork: () => true,
    onError: (error) => farm.deps.onError(error),
  });
  farm.calendarServer.now = { is: 'open', port: phones.port, hosts: ['127.0.0.1'] };
  const timer = setInterval(() => {
    farm.clock.nowMs += 1_000;
    for (const { well } of STORIES) farm.emit(secondOf(well, farm.clock.nowMs));
  }, 1_000);
  return {
    ...web,
    farm,
    close: async () => {
      clearInterval(timer);
      hub.close();
      await phones.close();
      await web.close();
    },
  };
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const folder = fileURLToPath(new URL('../../../dist/dashboards', import.meta.url));
  const { url } = await startFakeServer(folder, Number(argv[2] ?? 0));
  console.log(`The invented farm: ${url}`);
}
