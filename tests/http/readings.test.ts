import { describe, expect, test } from 'vitest';
import type { Answer } from '../../shared/api/routes.ts';
import { FARM_NOW_MS } from '../browser/support/farm.ts';
import { openTestApp, type TestApp } from './support.ts';

const HOUR = 3_600_000;
const run = async ({ get }: TestApp, well: string, sinceMs: number): Promise<Answer<'guidedRun'>> =>
  (await (await get(`/api/wells/${well}/guided-run?since=${sinceMs}&pump=p1`)).json()) as Answer<'guidedRun'>;

describe('a run followed over the API', () => {
  test('waits, and shows the run that came', async () => {
    const farm = openTestApp();
    const waiting = await run(farm, 'house-hill', FARM_NOW_MS - 30_000);
    expect(waiting).toMatchObject({
      run: { is: 'waiting', waitedS: 30 },
      action: expect.stringContaining('Open a tap') as string,
    });
    expect(waiting.clamp).toMatchObject({ node: 'house-hill', channel: 'current' });
    expect(waiting.clamp?.readA).toBeLessThan(0.05);
    const done = await run(farm, 'house-hill', FARM_NOW_MS - 6 * HOUR);
    expect(done.run.is === 'done' && done.run.readings.map(({ kind }) => kind)).toEqual([
      'amps',
      'cut-in',
      'cut-out',
      'fill-time',
    ]);
  });

  test('a pump that runs already does not count', async () => {
    const farm = openTestApp();
    expect((await run(farm, 'orchard', FARM_NOW_MS - 30_000)).run.is).toBe('already-running');
  });

  test.each([
    ['a pump that is none', 'since=1784052000000&pump=left', 400],
    ['a pump too many', `since=${FARM_NOW_MS}&pump=p2`, 404],
    ['a start in the future', `since=${FARM_NOW_MS + HOUR}&pump=p1`, 400],
    ['a start of last week', `since=${FARM_NOW_MS - 200 * HOUR}&pump=p1`, 400],
  ])('%s is refused', async (_, query, status) => {
    expect((await openTestApp().get(`/api/wells/orchard/guided-run?${query}`)).status).toBe(status);
  });
});

describe('readings over the API', () => {
  test('a meter’s reading with what the clamp read gives the points to calibrate by, until that was done', async () => {
    const { get, post, farm } = openTestApp();
    const entry = {
      kind: 'reading',
      what: 'amps',
      value: '8.3 A',
      pump: 'p1',
      from: 'hand',
      clamp: '7.9 A',
      pinned: true,
    };
    await post('/api/wells/house-hill/entries', { entry, by: 'Tom' });
    const readings = async () =>
      (await (await get('/api/wells/house-hill/readings')).json()) as Answer<'readings'>;
    const { groups, calibration } = await readings();
    expect(groups).toMatchObject([{ kind: 'amps', pump: 'p1', rows: [{ value: '8.3 A', by: 'Tom' }] }]);
    expect(groups[0]?.recent?.si).toBeCloseTo(7.9, 1);
    expect(calibration).toMatchObject([{ node: 'house-hill', channel: 'current', pairs: 1, usesZero: true }]);
    expect(calibration[0]?.points?.[1]).toEqual([7.9, 8.3]);
    expect(calibration[0]?.points?.[0]?.[1]).toBe(0);
    farm.clock.nowMs += 1000;
    const act = {
      kind: 'calibrated',
      node: 'house-hill',
      channel: 'current',
      points: calibration[0]?.points,
    };
    await post('/api/acts', { act });
    expect((await readings()).calibration).toMatchObject([{ pairs: 0, reason: 'no-pair' }]);
  });
});

describe('a measured draw over the API', () => {
  const draw = async (query: string) => {
    const answer = await openTestApp().get(`/api/wells/house-hill/measured-draw?${query}`);
    return {
      status: answer.status,
      body: (await answer.json()) as {
        found?: boolean;
        prechargeKpa?: number;
        reason?: string;
        detail?: string;
      },
    };
  };

  test('finds the charge of the card’s tank', async () => {
    // By hand: 166.6 L, air 83.8 kPa outside at 1,585 m. 20 L from 400 to 340 kPa gauge: charge 20
    // / (1/423.8 - 1/483.8) kPa L.
    const { body } = await draw('drawn=20%20L&before=400%20kPa&after=340%20kPa');
    const outside = 101.325 * (1 - 2.25577e-5 * 1585) ** 5.25588;
    const charge = 20 / (1 / (340 + outside) - 1 / (400 + outside));
    expect(body.found).toBe(true);
    expect(body.prechargeKpa).toBeCloseTo(charge / 166.6 - outside, 0);
  });

  test.each([
    ['a rise', 'drawn=5%20gal&before=40%20psi&after=44%20psi', 'pressure-did-not-fall'],
    ['a glass', 'drawn=0.1%20L&before=58%20psi&after=57.9%20psi', 'fell-too-little'],
    ['more than the tank', 'drawn=200%20gal&before=58%20psi&after=44%20psi', 'more-than-the-tank'],
  ])('%s says nothing', async (_, query, because) => {
    expect((await draw(query)).body).toMatchObject({ found: false, reason: because });
  });

  test('a bare number is refused', async () => {
    const { status, body } = await draw('drawn=5&before=58%20psi&after=44%20psi');
    expect([status, body.detail]).toEqual([400, 'query.drawn must be a volume in L, gal, m3 or acre-ft: 5']);
  });
});
