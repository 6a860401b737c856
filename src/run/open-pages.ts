/**
 * What people look at, opened: the pages on this computer, and the calendar for phones where the settings open this computer to the
 * farm's network (`serve --listen`). A calendar that cannot be opened is said on its page and in the log, and keeps no well from being watched.
 */
import { networkInterfaces } from 'node:os';
import type { Broker } from '../broker/broker.ts';
import type { Settings } from '../config/settings.ts';
import type { PaperFiles } from '../store/paper-files.ts';
import type { Store } from '../store/store.ts';
import { makeApp } from '../web/app.ts';
import { openCalendarDoor, type CalendarDoor } from '../web/calendar-door.ts';
import type { PhoneDoor, WebDeps } from '../web/deps.ts';
import { isOurHost } from '../web/guard.ts';
import { LiveHub } from '../web/live-hub.ts';
import { phoneCalendar } from '../web/phone-calendar.ts';
import { serveWeb, type OpenWeb } from '../web/serve.ts';
import { readSite } from '../web/site.ts';
import type { LiveServer } from './live/server.ts';
import { isNear, ownAddresses } from './own-networks.ts';
import { phoneSecrets } from './phone-secrets.ts';
import { webDeps } from './web-deps.ts';

interface PagesOptions {
  settings: Settings;
  version: string;
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
  /** Folder of the built pages. */
  siteFolder?: string;
}

export interface OpenPages extends OpenWeb {
  /** Where phones reach the calendar; undefined where it is closed. */
  calendar: { host: string; port: number } | undefined;
}

export async function openPages(
  options: PagesOptions,
  parts: { store: Store; live: LiveServer; broker: Broker; papers: PaperFiles },
): Promise<OpenPages> {
  const { settings, log, now } = options;
  const host = calendarHost(settings);
  const opened: { door?: CalendarDoor; failed?: string } = {};
  const door = (): PhoneDoor => {
    const hosts = ANY.includes(host) || isLoopback(host) ? ownAddresses(networkInterfaces()) : [host];
    return opened.door
      ? { is: 'open', port: opened.door.port, hosts }
      : { is: 'closed', hosts, ...(opened.failed !== undefined && { failed: opened.failed }) };
  };
  const deps = webDeps({ ...options, ...parts, phones: { ...phoneSecrets(parts.store, now), door } });
  const hub = new LiveHub(deps);
  const site = options.siteFolder === undefined ? undefined : readSite(options.siteFolder);
  const web = await serveWeb(makeApp(deps, { hub, ...(site && { site }) }), settings.web);
  if (!isLoopback(host)) {
    await openDoor(deps, { host, port: settings.calendar.port }).then(
      (calendar) => (opened.door = calendar),
      (error: unknown) => {
        opened.failed = error instanceof Error ? error.message : String(error);
        log('warn', `${opened.failed}. Wells are watched all the same.`);
      },
    );
  }
  return {
    ...web,
    calendar: opened.door && { host, port: opened.door.port },
    close: async () => {
      hub.close();
      await opened.door?.close();
      await web.close();
    },
  };
}

/** Addresses that stand for all of a computer's own. */
const ANY: readonly string[] = ['0.0.0.0', '::'];

/** Where the broker was opened to the farm's network the calendar is too, unless the settings say otherwise. */
function calendarHost({ calendar, broker }: Settings): string {
  return calendar.host ?? (broker.kind === 'built-in' ? broker.host : '127.0.0.1');
}

function isLoopback(host: string): boolean {
  return isOurHost(host.includes(':') ? `[${host}]` : host);
}

function openDoor(deps: WebDeps, at: { host: string; port: number }): Promise<CalendarDoor> {
  return openCalendarDoor({
    ...at,
    feed: phoneCalendar(deps),
    isNear: (address) => isNear(address, networkInterfaces()),
    fault: (error) => deps.fault(error),
  });
}
