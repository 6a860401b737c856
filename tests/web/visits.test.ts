import { describe, expect, test } from 'vitest';
import type { Answer } from '../../shared/api/routes.ts';
import { askFarm } from './support.ts';

describe('visits over the API', () => {
  test('a visit is opened, work is written into it, and its proof waits for runs', async () => {
    const { get, post, farm } = askFarm();
    await post('/api/acts', { act: { kind: 'visit-opened', well: 'orchard' }, by: 'Tom' });
    const path = '/api/wells/orchard/visits';
    const open = (await (await get(path)).json()) as Answer<'visits'>;
    const [visit] = open.visits;
    expect(visit).toMatchObject({ openedBy: 'Tom', work: [], asksNewBaseline: false });
    expect(visit?.closedMs).toBeUndefined();
    const entry = { kind: 'work', done: 'New contacts', touched: ['switch'], visit: visit?.id };
    expect((await post('/api/wells/orchard/entries', { entry, by: 'Tom' })).status).toBe(200);
    farm.clock.nowMs += 3_600_000;
    await post('/api/acts', { act: { kind: 'visit-closed', well: 'orchard', newBaseline: true } });
    const proof = (await (await get(`${path}/${visit?.id}/proof`)).json()) as Answer<'proof'>;
    expect(proof.visit).toMatchObject({ newBaseline: true, touched: ['switch'], asksNewBaseline: true });
    const amps = proof.pumps[0]?.lines.find(({ measure }) => measure === 'amps');
    expect(amps).toMatchObject({ verdict: 'not-known-yet', needed: 10, after: { n: 0 }, usual: 11.2 });
    expect(amps?.before.n).toBeGreaterThan(10);
  });

  test('a visit of a month ago shows both sides', async () => {
    const { get } = askFarm();
    const proof = (await (await get('/api/wells/house-hill/visits/a1/proof')).json()) as Answer<'proof'>;
    const said = Object.fromEntries(proof.pumps[0]!.lines.map(({ measure, verdict }) => [measure, verdict]));
    expect(said).toMatchObject({ amps: 'within-spread', 'cut-in': 'within-spread', leak: 'not-known-yet' });
  });

  test('there is no other visit', async () => {
    expect((await askFarm().get('/api/wells/house-hill/visits/zz/proof')).status).toBe(404);
  });

  test('what to bring follows what stands', async () => {
    const bring = (await (await askFarm().get('/api/wells/north-paddock/bring')).json()) as Answer<'bring'>;
    expect(bring.us.map(({ part }) => part)).toEqual(['tank', 'fittings']);
    expect(bring.us[0]?.known).toContain('44 gal');
    expect(bring.metric[0]?.known).toContain('167 L');
  });
});
