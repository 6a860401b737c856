import { describe, expect, test } from 'vitest';
import { FARM_NOW_MS } from '../browser/support/farm.ts';
import { wellsShape } from '../../shared/api/wells.ts';
import type { StoredAlarm } from '../../src/http/deps.ts';
import { openTestApp } from './support.ts';

const longRun = `orchard/p1/long-run/${FARM_NOW_MS - 3.75 * 3_600_000}`;
const over = `house-hill/p1/node-silent/${FARM_NOW_MS - 56 * 86_400_000}`;

describe('acknowledge', () => {
  test('becomes an act that names the well, pump and alarm, and who did it', async () => {
    const { post, farm } = openTestApp();
    const response = await post(`/api/alarms/${encodeURIComponent(longRun)}/acknowledge`, { by: 'Ines' });
    expect(await response.json()).toEqual({ done: true, atMs: FARM_NOW_MS });
    expect(farm.acts).toEqual([
      { act: { kind: 'acknowledged', well: 'orchard', pump: 'p1', alarm: 'long-run' }, by: 'Ines' },
    ]);
  });

  test.each([
    ['an alarm that is over', over, 409],
    ['an alarm that never was', 'orchard/p1/dry-run/12', 404],
  ])('%s: nothing is done', async (_why, id, status) => {
    const { post, farm } = openTestApp();
    const response = await post(`/api/alarms/${encodeURIComponent(id)}/acknowledge`, {});
    expect(response.status).toBe(status);
    expect(farm.acts).toEqual([]);
  });
});

describe('an alarm of a whole site', () => {
  const site: StoredAlarm = {
    id: 'harrow-bend/-/site-silent/12',
    well: 'harrow-bend',
    site: 'harrow-bend',
    alarm: 'site-silent',
    state: 'unacknowledged',
    sinceMs: 12,
    raisedMs: 13,
    event: {
      event: 'alarm',
      site: 'harrow-bend',
      alarm: 'site-silent',
      state: 'raised',
      at: '1970-01-01T00:00:00.013Z',
    },
  };
  const path = `/api/alarms/${encodeURIComponent(site.id)}`;

  test('stands beside the wells and is no well’s', async () => {
    const { get, farm } = openTestApp();
    farm.alarms.push(site);
    const { siteAlarms, wells } = wellsShape.parse(await (await get('/api/wells')).json());
    expect(siteAlarms.map(({ id, site: of, well }) => [id, of, well])).toEqual([
      [site.id, 'harrow-bend', undefined],
    ]);
    expect(wells.flatMap(({ activeAlarms }) => activeAlarms.map(({ alarm }) => alarm))).not.toContain(
      'site-silent',
    );
  });

  test('is acknowledged under the site’s name, and not put aside', async () => {
    const { post, farm } = openTestApp();
    farm.alarms.push(site);
    expect((await post(`${path}/acknowledge`, {})).status).toBe(200);
    expect(farm.acts[0]?.act).toEqual({ kind: 'acknowledged', well: 'harrow-bend', alarm: 'site-silent' });
    expect((await post(`${path}/shelve`, { untilMs: FARM_NOW_MS + 3_600_000 })).status).toBe(409);
  });
});

describe('shelve', () => {
  test('writes the time as the contract does', async () => {
    const { post, farm } = openTestApp();
    await post(`/api/alarms/${encodeURIComponent(longRun)}/shelve`, { untilMs: FARM_NOW_MS + 3_600_000 });
    expect(farm.acts[0]?.act).toEqual({
      kind: 'shelved',
      well: 'orchard',
      pump: 'p1',
      alarm: 'long-run',
      until: '2026-07-14T19:15:00.000Z',
    });
  });

  test.each([
    ['in the past', FARM_NOW_MS - 1],
    ['over 30 days ahead', FARM_NOW_MS + 31 * 86_400_000],
  ])('%s is refused', async (_why, untilMs) => {
    const { post, farm } = openTestApp();
    const response = await post(`/api/alarms/${encodeURIComponent(longRun)}/shelve`, { untilMs });
    expect(response.status).toBe(400);
    expect(farm.acts).toEqual([]);
  });
});

const ACTS: [why: string, act: unknown, status: number][] = [
  ['a visit', { kind: 'visit-opened', well: 'orchard' }, 200],
  ['a visit’s end with a new baseline', { kind: 'visit-closed', well: 'orchard', newBaseline: true }, 200],
  ['a pinned value with its unit', { kind: 'pinned', well: 'orchard', pump: 'p1', amps: '7.9 A' }, 200],
  [
    'what is expected',
    { kind: 'expected', well: 'orchard', text: 'guests', until: '2026-07-20T00:00:00Z' },
    200,
  ],
  ['laid up without an end', { kind: 'laid-up', well: 'orchard' }, 200],
  [
    'an act that the rules of the well refuse',
    { kind: 'pinned', well: 'orchard', pump: 'p3', amps: '7 A' },
    409,
  ],
  ['a well that is not', { kind: 'visit-opened', well: 'nowhere' }, 404],
  ['the server’s own act', { kind: 'tick' }, 400],
  ['an act that would switch a pump', { kind: 'stop-pump', well: 'orchard' }, 400],
  ['an unknown key', { kind: 'visit-opened', well: 'orchard', loud: true }, 400],
];

describe('acts', () => {
  test.each(ACTS)('%s', async (_why, act, status) => {
    const { post, farm } = openTestApp();
    const response = await post('/api/acts', { act, by: 'Ines' });
    expect(response.status).toBe(status);
    expect(farm.acts.length).toBe(status === 200 || status === 409 ? 1 : 0);
  });

  test('no route has a word for switching a pump', async () => {
    const { get } = openTestApp();
    const document = await (await get('/api/openapi.json')).text();
    expect(document).not.toMatch(/"(start|stop|set|run|switch)-?pump"/i);
  });
});

describe('approve', () => {
  test('a pending node is approved once', async () => {
    const { post, farm } = openTestApp();
    expect((await post('/api/nodes/creek-trough/approve', {})).status).toBe(200);
    expect(farm.nodes.find((row) => row.node === 'creek-trough')?.approved).toBe(true);
    expect((await post('/api/nodes/creek-trough/approve', {})).status).toBe(409);
    expect((await post('/api/nodes/never-heard/approve', {})).status).toBe(404);
  });
});

describe('forget', () => {
  test('a node is forgotten once; one that stays says why', async () => {
    const { post, farm } = openTestApp();
    expect((await post('/api/nodes/creek-trough/forget', {})).status).toBe(200);
    expect(farm.nodes.map(({ node }) => node)).not.toContain('creek-trough');
    expect((await post('/api/nodes/creek-trough/forget', {})).status).toBe(404);
    const stays = await post(`/api/nodes/${farm.nodes[0]!.node}/forget`, {});
    expect([stays.status, await stays.json()]).toMatchObject([
      409,
      { detail: expect.stringContaining('kept') },
    ]);
  });
});

describe('the body', () => {
  test.each([
    ['not JSON', '{"act":', 'application/json', 400],
    ['a form', 'act=1', 'application/x-www-form-urlencoded', 415],
    ['too large', JSON.stringify({ by: 'x'.repeat(70_000) }), 'application/json', 413],
  ])('%s is refused', async (_why, body, type, status) => {
    const { post } = openTestApp();
    expect((await post('/api/acts', body, { 'content-type': type })).status).toBe(status);
  });
});
