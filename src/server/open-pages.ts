/**
 * What people look at, opened: the pages on this computer, and the calendar for phones where the
 * settings open this computer to the farm's network (`serve --listen`). A calendar that cannot be
 * opened is said on its page and in the log, and keeps no well from being watched.
 */
import { networkInterfaces } from 'node:os';
import type { Broker } from '../mqtt/broker.ts';
import type { Settings } from '../config/settings.ts';
import type { DocumentFiles } from '../store/document-files.ts';
import type { Store } from '../store/store.ts';
import { makeApp } from '../http/app.ts';
import { openCalendarServer, type CalendarServer } from '../http/calendar-server.ts';
import type { CalendarServerState, WebDeps } from '../http/deps.ts';
import { isLoopbackHost } from '../http/guard.ts';
import { LiveHub } from '../http/live-hub.ts';
import { calendarAtPath } from '../http/calendar-at-path.ts';
import { serveWeb, type WebServer } from '../http/serve.ts';
import { readSite } from '../http/site.ts';
import type { LiveServer } from './live/server.ts';
import { watchLoopDelay } from './loop-delay.ts';
import { isOnLocalNetwork, localAddresses } from './local-networks.ts';
import { phoneSecrets } from './phone-secrets.ts';
import { webDeps } from './web-deps.ts';
import { texts } from './texts.ts';

interface PagesOptions {
  settings: Settings;
  version: string;
  commandOptions?: string;
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
  /** Folder of the built pages. */
  siteFolder?: string;
}

export interface OpenPages extends WebServer {
  /** Where phones reach the calendar; undefined where it is closed. */
  calendar: { host: string; port: number } | undefined;
}

export async function openPages(
  options: PagesOptions,
  parts: { store: Store; live: LiveServer; broker: Broker; documents: DocumentFiles },
): Promise<OpenPages> {
  const { settings, log, now } = options;
  const host = calendarHost(settings);
  const opened: { calendar?: CalendarServer; failed?: string } = {};
  const calendarState = (): CalendarServerState => {
    const hosts =
      WILDCARD_ADDRESSES.includes(host) || isLoopback(host) ? localAddresses(networkInterfaces()) : [host];
    return opened.calendar
      ? { is: 'open', port: opened.calendar.port, hosts }
      : { is: 'closed', hosts, ...(opened.failed !== undefined && { error: opened.failed }) };
  };
  const loopDelay = watchLoopDelay();
  const deps = webDeps({
    ...options,
    ...parts,
    loopDelay,
    phones: { ...phoneSecrets(parts.store, now), serverState: calendarState },
  });
  const hub = new LiveHub(deps);
  const site = options.siteFolder === undefined ? undefined : readSite(options.siteFolder);
  const web = await serveWeb(makeApp(deps, { hub, ...(site && { site }) }), settings.web);
  if (!isLoopback(host)) {
    await openCalendar(deps, { host, port: settings.calendar.port }).then(
      (calendar) => (opened.calendar = calendar),
      (error: unknown) => {
        opened.failed = error instanceof Error ? error.message : String(error);
        log('warn', texts().wellsAreWatchedAll(opened.failed));
      },
    );
  }
  return {
    ...web,
    calendar: opened.calendar && { host, port: opened.calendar.port },
    close: async () => {
      loopDelay.close();
      hub.close();
      await opened.calendar?.close();
      await web.close();
    },
  };
}

/** Addresses that stand for all of a computer's own. */
const WILDCARD_ADDRESSES: readonly string[] = ['0.0.0.0', '::'];

/**
 * Where the broker was opened to the farm's network the calendar is too, unless the settings say
 * otherwise.
 */
function calendarHost({ calendar, broker }: Settings): string {
  return calendar.host ?? (broker.kind === 'built-in' ? broker.host : '127.0.0.1');
}

function isLoopback(host: string): boolean {
  return isLoopbackHost(host.includes(':') ? `[${host}]` : host);
}

function openCalendar(deps: WebDeps, at: { host: string; port: number }): Promise<CalendarServer> {
  return openCalendarServer({
    ...at,
    feed: calendarAtPath(deps),
    isOnLocalNetwork: (address) => isOnLocalNetwork(address, networkInterfaces()),
    onError: (error) => deps.onError(error),
  });
}
