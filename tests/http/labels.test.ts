import { expect, test } from 'vitest';
import type { Label } from '../../shared/api/labels.ts';
import { openTestApp } from './support.ts';

test('the tank’s label, the list to bring and the check of the charge go by one measured cut-in', async () => {
  const { get, post } = openTestApp();
  const path = '/api/wells/house-hill';
  const reading = { kind: 'reading', what: 'cut-in', value: '36 psi', with: 'a gauge' };
  expect((await post(`${path}/entries`, { entry: reading, by: 'Ines' })).status).toBe(200);
  const { us, metric } = (await (await get(`${path}/labels`)).json()) as { us: Label[]; metric: Label[] };
  expect(us.map(({ id }) => id)).toEqual(metric.map(({ id }) => id));
  expect(us[0]?.lines[0]).toMatchObject({ name: 'precharge', value: '34 psi' });
  expect(us[0]?.madeOn).toBe('2026-07-14');
  expect(await (await get(`${path}/parts-list`)).text()).toContain('set to 34 psi');
  const { checks } = (await (await get(`${path}/checks`)).json()) as {
    checks: { check: string; target?: { kpa: number } }[];
  };
  expect(checks.find(({ check }) => check === 'precharge')?.target?.kpa).toBeCloseTo(34 * 6.894757, 3);
});

test('a well that is not has no labels', async () => {
  expect((await openTestApp().get('/api/wells/nowhere/labels')).status).toBe(404);
});
