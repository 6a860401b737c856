/**
 * The one thing that answers on the farm's network: what it answers, and that it answers nothing
 * else.
 */
import { connect } from 'node:net';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CalendarAddressAnswer } from '../../shared/api/calendar-address.ts';
import { openCalendarServer, type CalendarServer } from '../../src/http/calendar-server.ts';
import { calendarAtPath } from '../../src/http/calendar-at-path.ts';
import { openTestApp } from './support.ts';

const asked = openTestApp();
const { farm } = asked;
let server: CalendarServer;
let isNear = (): boolean => true;
beforeAll(async () => {
  server = await openCalendarServer({
    host: '127.0.0.1',
    port: 0,
    feed: calendarAtPath(farm.deps),
    isOnLocalNetwork: () => isNear(),
    onError: (error) => farm.faults.push(error),
  });
  farm.calendarServer.now = { is: 'open', port: server.port, hosts: ['127.0.0.1'] };
});
afterAll(() => server.close());

async function want(what: string, well?: string): Promise<CalendarAddressAnswer> {
  const answer = await asked.post('/api/calendar-address', {
    action: what,
    ...(well === undefined ? {} : { well }),
  });
  expect(answer.status).toBe(200);
  return (await answer.json()) as CalendarAddressAnswer;
}

async function urlOf(what: string, well?: string): Promise<string> {
  return (await want(what, well)).address?.urls[0] ?? '';
}

/** The wells of all events, each once. */
async function wellsAt(url: string): Promise<string[]> {
  const feed = new ICAL.Component(ICAL.parse(await (await fetch(url)).text()));
  const events = feed.getAllSubcomponents('vevent');
  return [...new Set(events.map((event) => String(event.getFirstPropertyValue('categories'))))];
}

/** What comes back for bytes as they are. */
function raw(bytes: string): Promise<string> {
  return new Promise((resolve) => {
    const line = connect(server.port, '127.0.0.1', () => line.write(bytes));
    let text = '';
    line.on('data', (chunk) => (text += String(chunk)));
    line.on('error', () => undefined);
    line.on('close', () => resolve(text));
  });
}

describe('the server for phones', () => {
  test('gives the calendar of all wells or of one, to be kept by nobody on the way', async () => {
    const all = await fetch(await urlOf('ensure'));
    expect(all.status).toBe(200);
    expect(Object.fromEntries(all.headers)).toMatchObject({
      'content-type': 'text/calendar; charset=utf-8',
      'cache-control': 'no-store',
      'x-robots-tag': 'noindex, nofollow',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'",
      connection: 'close',
    });
    expect(await all.text()).toBe(await (await asked.get('/calendar.ics')).text());
    const one = await fetch(await urlOf('ensure', 'orchard'));
    expect(await one.text()).toBe(await (await asked.get('/calendar.ics?well=orchard')).text());
  });

  test('makes a calendar once a minute, however often it is asked; a check that was done moves after that', async () => {
    const [all, orchard] = [await urlOf('ensure'), await urlOf('ensure', 'orchard')];
    const text = async (url: string): Promise<string> => (await fetch(url)).text();
    farm.clock.nowMs += 60_000;
    const before = [await text(all), await text(orchard)];
    const entry = { kind: 'check', check: 'freeze', outcome: 'right', at: '2026-07-01T12:00:00Z' };
    expect((await asked.post('/api/wells/orchard/entries', { entry })).status).toBe(200);
    farm.clock.nowMs += 59_999;
    expect([await text(all), await text(orchard)]).toEqual(before);
    farm.clock.nowMs += 1;
    expect(await text(all)).not.toBe(before[0]);
    expect(await text(orchard)).toBe(await (await asked.get('/calendar.ics?well=orchard')).text());
  });

  test('answers HEAD with the length and without the calendar', async () => {
    const url = await urlOf('ensure');
    const head = await fetch(url, { method: 'HEAD' });
    expect(head.status).toBe(200);
    expect(Number(head.headers.get('content-length'))).toBe(
      (await (await fetch(url)).arrayBuffer()).byteLength,
    );
    expect(await head.text()).toBe('');
  });

  test.each<[what: string, path: (secret: string, of: { orchard: string }) => string]>([
    ['the root', () => '/'],
    ['the pages', () => '/index.html'],
    ['the API', () => '/api/wells'],
    ['the calendar of this computer', () => '/calendar.ics'],
    ['health', () => '/health'],
    ['no secret', () => '/checks.ics'],
    ['another secret', (secret) => `/${'a'.repeat(secret.length)}/checks.ics`],
    ['a secret that is a letter short', (secret) => `/${secret.slice(1)}/checks.ics`],
    ['a letter more', (secret) => `/${secret}a/checks.ics`],
    ['capitals', (secret) => `/${secret.toUpperCase()}/checks.ics`],
    ['another name', (secret) => `/${secret}/wells.ics`],
    ['the secret alone', (secret) => `/${secret}/`],
    ['a question behind it', (secret) => `/${secret}/checks.ics?well=orchard`],
    ['a slash behind it', (secret) => `/${secret}/checks.ics/`],
    ['a slash more', (secret) => `//${secret}/checks.ics`],
    ['written otherwise', (secret) => `/${secret}/%63hecks.ics`],
    ['one well by the secret of all', (secret) => `/${secret}/orchard/checks.ics`],
    ['all by the secret of one well', (_, { orchard }) => `/${orchard}/checks.ics`],
    ['another well by the secret of one', (_, { orchard }) => `/${orchard}/house-hill/checks.ics`],
    ['a well that is not there', (secret) => `/${secret}/nowhere/checks.ics`],
    ['a name that is none', (secret) => `/${secret}/__proto__/checks.ics`],
    ['what would be the key of all', () => '/a/phone-calendar/checks.ics'],
  ])('answers 404 to %s', async (_what, path) => {
    await want('ensure');
    await want('ensure', 'orchard');
    const [all, orchard] = [
      await farm.deps.calendarAccess.secret(undefined),
      await farm.deps.calendarAccess.secret('orchard'),
    ];
    const answer = await raw(
      `GET ${path(all!.text, { orchard: orchard!.text })} HTTP/1.1\r\nhost: farm\r\n\r\n`,
    );
    expect(answer).toMatch(/^HTTP\/1\.1 404 /);
    expect(answer.split('\r\n\r\n')[1]).toBe('Nothing is here.\n');
  });

  test.each(['POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND'])(
    'answers 405 to %s, wherever it is sent',
    async (method) => {
      const { pathname } = new URL(await urlOf('ensure'));
      for (const path of [pathname, '/', '/api/acts']) {
        // One connection after the other.
        // oxlint-disable-next-line no-await-in-loop
        const answer = await raw(`${method} ${path} HTTP/1.1\r\nhost: farm\r\ncontent-length: 2\r\n\r\n{}`);
        expect(answer).toMatch(/^HTTP\/1\.1 405 /);
        expect(answer).toMatch(/^allow: GET, HEAD\r$/m);
      }
    },
  );

  test.each<[what: string, bytes: string, says: RegExp]>([
    [
      'headers without end',
      `GET / HTTP/1.1\r\nhost: farm\r\nx: ${'x'.repeat(5_000)}\r\n\r\n`,
      /^HTTP\/1\.1 431 /,
    ],
    [
      'an address without end',
      `GET /${'x'.repeat(5_000)} HTTP/1.1\r\nhost: farm\r\n\r\n`,
      /^HTTP\/1\.1 431 /,
    ],
    ['what is no request', 'hello\r\n\r\n', /^HTTP\/1\.1 400 /],
    ['a tunnel', 'CONNECT farm:80 HTTP/1.1\r\nhost: farm\r\n\r\n', /^$/],
  ])('bears %s', async (_what, bytes, says) => {
    expect(await raw(bytes)).toMatch(says);
    expect((await fetch(await urlOf('ensure'))).status).toBe(200);
  });

  test('answers one request a connection', async () => {
    const { pathname } = new URL(await urlOf('ensure'));
    const twice = `GET ${pathname} HTTP/1.1\r\nhost: farm\r\n\r\n`.repeat(2);
    expect((await raw(twice)).match(/HTTP\/1\.1 200 /g)).toHaveLength(1);
  });

  test('hangs up on who is on no network of ours, before a word is said', async () => {
    const url = await urlOf('ensure');
    isNear = () => false;
    await expect(fetch(url)).rejects.toThrow();
    isNear = () => {
      throw new Error('no networks');
    };
    await expect(fetch(url)).rejects.toThrow();
    expect(String(farm.faults.at(-1))).toContain('no networks');
    isNear = () => true;
    expect((await fetch(url)).status).toBe(200);
  });

  test('says in one line that its port is taken', async () => {
    const feed = () => Promise.resolve(undefined);
    const more = { host: '127.0.0.1', port: server.port, feed, isOnLocalNetwork: () => true };
    await expect(openCalendarServer({ ...more, onError: () => undefined })).rejects.toThrow(
      /^Cannot open the calendar for phones on 127\.0\.0\.1:\d+: another program has this port/,
    );
  });

  test('keeps a fault of our own, and what it was about, to itself', async () => {
    const url = await urlOf('ensure');
    farm.clock.nowMs += 60_000;
    const { store } = farm.deps;
    const alarms = store.alarms.bind(store);
    store.alarms = () => {
      throw new Error('inner part');
    };
    const answer = await fetch(url);
    store.alarms = alarms;
    expect(answer.status).toBe(500);
    expect(await answer.text()).not.toContain('inner');
    expect(String(farm.faults.at(-1))).toContain('inner part');
    const secret = await farm.deps.calendarAccess.secret(undefined);
    expect(String(farm.faults.at(-1))).not.toContain(secret!.text);
  });
});

describe('the address for phones over the API', () => {
  test('is there when it was made, stays, and opens nothing any more when it was taken away', async () => {
    await want('remove');
    expect(await (await asked.get('/api/calendar-address')).json()).toEqual({
      server: { is: 'open', hosts: ['127.0.0.1'] },
    });
    const first = await urlOf('ensure');
    expect(await urlOf('ensure')).toBe(first);
    expect(await wellsAt(first)).toHaveLength(4);
    const second = await urlOf('renew');
    expect(second).not.toBe(first);
    expect([(await fetch(first)).status, (await fetch(second)).status]).toEqual([404, 200]);
    await want('remove');
    expect((await fetch(second)).status).toBe(404);
  });

  test('of one well holds that one, and each has its own', async () => {
    const [all, orchard] = [await urlOf('ensure'), await urlOf('ensure', 'orchard')];
    expect(await wellsAt(orchard)).toEqual(['orchard']);
    await want('renew', 'orchard');
    expect([(await fetch(orchard)).status, (await fetch(all)).status]).toEqual([404, 200]);
    expect((await asked.get('/api/calendar-address?well=nowhere')).status).toBe(404);
    expect((await asked.post('/api/calendar-address', { action: 'ensure', well: 'nowhere' })).status).toBe(
      404,
    );
    expect((await asked.post('/api/calendar-address', { action: 'two' })).status).toBe(400);
  });

  test('is told for each address of this computer; where it answers nobody none is made, and one can be taken away', async () => {
    const open = farm.calendarServer.now;
    farm.calendarServer.now = { is: 'open', port: 8422, hosts: ['192.168.7.20', 'fd00::7'] };
    const { address } = await want('ensure');
    expect(address?.urls.map((url) => url.replace(/[a-z2-7]{28}/, 'S'))).toEqual([
      'http://192.168.7.20:8422/S/checks.ics',
      'http://[fd00::7]:8422/S/checks.ics',
    ]);
    farm.calendarServer.now = { is: 'closed', hosts: ['192.168.7.20'] };
    expect(await (await asked.get('/api/calendar-address')).json()).toEqual({
      server: farm.calendarServer.now,
    });
    expect((await asked.post('/api/calendar-address', { action: 'renew' })).status).toBe(409);
    await want('remove');
    expect(await farm.deps.calendarAccess.secret(undefined)).toBeUndefined();
    farm.calendarServer.now = open;
  });

  test('is asked by our own pages alone', async () => {
    const headers = { origin: 'https://example.org' };
    expect((await asked.post('/api/calendar-address', { action: 'renew' }, headers)).status).toBe(403);
    expect((await asked.get('/api/calendar-address', { host: 'rebound.example.org' })).status).toBe(403);
  });
});
