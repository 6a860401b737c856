import { describe, expect, test } from 'vitest';
import type { Answer } from '../../shared/api/routes.ts';
import { openTestApp } from './support.ts';

describe('visits over the API', () => {
  test('a visit is opened, work is written into it, and its proof waits for runs', async () => {
    const { get, post, farm } = openTestApp();
    await post('/api/acts', { act: { kind: 'visit-opened', well: 'orchard' }, by: 'Tom' });
    const path = '/api/wells/orchard/visits';
    const open = (await (await get(path)).json()) as Answer<'visits'>;
    const [visit] = open.visits;
    expect(visit).toMatchObject({ openedBy: 'Tom', work: [], needsNewBaseline: false });
    expect(visit?.closedMs).toBeUndefined();
    const entry = { kind: 'work', done: 'New contacts', touched: ['switch'], visit: visit?.id };
    expect((await post('/api/wells/orchard/entries', { entry, by: 'Tom' })).status).toBe(200);
    farm.clock.nowMs += 3_600_000;
    await post('/api/acts', { act: { kind: 'visit-closed', well: 'orchard', newBaseline: true } });
    const proof = (await (await get(`${path}/${visit?.id}/report`)).json()) as Answer<'report'>;
    expect(proof.visit).toMatchObject({
      newBaseline: true,
      affectedParts: ['switch'],
      needsNewBaseline: true,
    });
    const amps = proof.pumps[0]?.lines.find(({ measure }) => measure === 'amps');
    expect(amps).toMatchObject({ verdict: 'pending', minCount: 10, after: { count: 0 }, normal: 11.2 });
    expect(amps?.before.count).toBeGreaterThan(10);
  });

  test('a visit of a month ago shows both sides', async () => {
    const { get } = openTestApp();
    const proof = (await (await get('/api/wells/house-hill/visits/a1/report')).json()) as Answer<'report'>;
    const said = Object.fromEntries(proof.pumps[0]!.lines.map(({ measure, verdict }) => [measure, verdict]));
    expect(said).toMatchObject({ amps: 'within-spread', 'cut-in': 'within-spread', leak: 'pending' });
  });

  test('there is no other visit', async () => {
    expect((await openTestApp().get('/api/wells/house-hill/visits/zz/report')).status).toBe(404);
  });

  test('what to bring follows what stands', async () => {
    const bring = (await (
      await openTestApp().get('/api/wells/north-paddock/parts-list')
    ).json()) as Answer<'partsList'>;
    expect(bring.us.map(({ part }) => part)).toEqual(['tank', 'fittings']);
    expect(bring.us[0]?.known).toContain('44 gal');
    expect(bring.metric[0]?.known).toContain('167 L');
  });
});
