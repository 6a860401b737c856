import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import type { ChecksAnswer, WaterAnswer } from '../../shared/api/due.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { cardOf, FARM_NOW_MS, storyOf } from '../browser/support/farm.ts';
import { openTestApp } from './support.ts';

type Asked = ReturnType<typeof openTestApp>;

async function write({ post }: Asked, entry: Record<string, unknown>, well = 'orchard'): Promise<Response> {
  return await post(`/api/wells/${well}/entries`, { entry, by: 'Ines' });
}

async function due({ get }: Asked, query = ''): Promise<Answer<'due'>> {
  const answer = await get(`/api/due${query}`);
  expect(answer.status).toBe(200);
  return (await answer.json()) as Answer<'due'>;
}

async function checksOf({ get }: Asked): Promise<ChecksAnswer['checks']> {
  return ((await (await get('/api/wells/orchard/checks')).json()) as ChecksAnswer).checks;
}

const day = (offset: number): string => new Date(FARM_NOW_MS + offset * 86_400_000).toISOString();

describe('what is due over the API', () => {
  test('a check that was done moves to next year, with its value and photo kept', async () => {
    const farm = openTestApp();
    const before = await due(farm, '?well=orchard&until=2099-01-01');
    expect(before.due.map(({ check }) => check)).not.toContain('precharge');
    expect(before.notRecorded.map(({ check }) => check)).toContain('precharge');
    const done = await write(farm, {
      kind: 'check',
      check: 'precharge',
      outcome: 'put-right',
      value: '31 psi',
      left: '38 psi',
      at: day(-1),
    });
    expect(done.status).toBe(200);
    const row = (await checksOf(farm)).find(({ check }) => check === 'precharge');
    expect(row).toMatchObject({
      state: 'later',
      lastDate: day(-1).slice(0, 10),
      target: { from: expect.any(String) },
    });
    expect(row?.completions).toMatchObject([
      { outcome: 'put-right', value: '31 psi', asLeft: '38 psi', by: 'Ines' },
    ]);
    expect(row?.completions[0]?.valueSi).toBeCloseTo(213.74, 1);
  });

  test.each<[what: string, entry: Record<string, unknown>, says: string]>([
    [
      'another unit',
      { kind: 'check', check: 'precharge', outcome: 'right', value: '38 ft' },
      'value must be a pressure',
    ],
    [
      'two units',
      { kind: 'check', check: 'precharge', outcome: 'right', value: '38 psi 2 bar' },
      'value must be a pressure',
    ],
    [
      'no unit',
      { kind: 'check', check: 'precharge', outcome: 'right', value: '38' },
      'value must be a pressure',
    ],
    [
      'what no gauge shows',
      { kind: 'check', check: 'precharge', outcome: 'right', value: '3800 psi' },
      'between 0 and 300 psi',
    ],
    [
      'a day that never was',
      { kind: 'check', check: 'precharge', outcome: 'right', at: '2026-02-30T12:00:00Z' },
      'at must be a time',
    ],
    [
      'a day to come',
      { kind: 'check', check: 'precharge', outcome: 'right', at: '2031-01-01T12:00:00Z' },
      'at must be in the past',
    ],
    [
      'an outcome that is none',
      { kind: 'check', check: 'precharge', outcome: 'maybe' },
      'outcome must be one of',
    ],
    [
      'an own check without a title',
      { kind: 'check-plan', check: 'own-a', everyDays: 7 },
      'title must be given',
    ],
    [
      'half a day',
      { kind: 'check-plan', check: 'precharge', everyDays: 0.5 },
      'everyDays must be a whole number',
    ],
    ['30 February', { kind: 'check-plan', check: 'freeze', on: '02-30' }, 'on must be a day of the year'],
    ['29 February', { kind: 'check-plan', check: 'freeze', on: '02-29' }, 'on must be a day of the year'],
    [
      'both rounds',
      { kind: 'check-plan', check: 'freeze', on: '10-01', everyDays: 7 },
      'on must not be given with',
    ],
    [
      'a next day that is none',
      { kind: 'check-plan', check: 'freeze', next: '2027-13-01' },
      'next must be a date',
    ],
    [
      'nitrate as nothing',
      {
        kind: 'water-test',
        results: [
          { analyte: 'Iron', value: '0.1', unit: 'mg/L' },
          { analyte: 'Nitrate', value: '3', unit: 'mg/L' },
        ],
      },
      'results.2.unit must say as what',
    ],
    [
      'a result that is no text',
      { kind: 'water-test', results: [{ analyte: 'Iron', value: 0.1 }] },
      'results.1 must have',
    ],
    ['an event that is none', { kind: 'note', text: 'x', event: 'party' }, 'event must be one of'],
  ])('%s is refused with its key', async (_, entry, says) => {
    const answer = await write(openTestApp(), entry);
    expect(answer.status).toBe(409);
    expect(await answer.text()).toContain(says);
  });

  test('of all wells: by day, up to the day asked for, and of one site', async () => {
    const farm = openTestApp();
    const all = await due(farm, '?until=2099-01-01');
    expect(all.wells).toBeGreaterThan(3);
    const days = all.due.map(({ dueDate }) => dueDate ?? '');
    expect(days).toEqual(days.toSorted((a, b) => a.localeCompare(b)));
    expect(new Set(all.due.map(({ well }) => well)).size).toBe(all.wells);
    expect((await due(farm, '?until=2020-01-01')).due).toEqual([]);
    expect((await due(farm, '?site=harrow-bend')).wells).toBe(all.wells);
    expect((await farm.get('/api/due?site=nowhere')).status).toBe(404);
    expect((await farm.get('/api/due?well=nowhere')).status).toBe(404);
    expect((await farm.get('/api/due?until=2026-02-30')).status).toBe(400);
  });

  test('of 200 wells in one answer, each with its own', async () => {
    const farm = openTestApp();
    const { live } = farm.farm.deps;
    const base = (await live.well('orchard'))!;
    const names = Array.from({ length: 200 }, (_, at) => `well-${at}`);
    const of = (well: string) => ({
      ...base,
      status: { ...base.status, well },
      card: { ...cardOf(storyOf('orchard')), well },
    });
    live.wells = async () => names.map((well) => of(well).status);
    live.well = async (name) => (names.includes(name) ? of(name) : undefined);
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-5) }, 'well-7');
    const answer = await due(farm, `?until=${day(31).slice(0, 10)}`);
    expect(answer.wells).toBe(200);
    expect(answer.due.map(({ check }) => check)).not.toContain('precharge');
    expect(answer.notRecordedTotal.wells).toBe(200);
    expect(answer.notRecorded.length).toBeLessThan(answer.notRecordedTotal.checks / 2);
    const far = await due(farm, '?until=2099-01-01');
    const precharge = far.notRecorded.filter(({ check }) => check === 'precharge').map(({ well }) => well);
    expect(precharge).toHaveLength(199);
    expect(precharge).not.toContain('well-7');
    const feed = await (await farm.get('/calendar.ics')).text();
    const events = new ICAL.Component(ICAL.parse(feed)).getAllSubcomponents('vevent');
    const ids = events.map((event) => event.getFirstPropertyValue('uid'));
    expect(new Set(ids).size).toBe(ids.length);
    // One a well for what nobody wrote down, one for the frost on all of them, one for the
    // precharge that was done.
    expect(ids.length).toBe(202);
    const days = events.map((event) => String(event.getFirstPropertyValue('dtstart')));
    expect(Math.max(...days.map((on) => days.filter((other) => other === on).length))).toBeLessThan(15);
  });

  test('a well that is laid up has its checks wait, with the reason, until its written end', async () => {
    const farm = openTestApp();
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-380) });
    const act = { kind: 'laid-up', well: 'orchard', until: day(60) };
    expect((await farm.post('/api/acts', { act })).status).toBe(200);
    const soon = await due(farm, '?well=orchard');
    expect(soon.due.map(({ check }) => check)).not.toContain('precharge');
    expect(soon.onHold.find(({ check }) => check === 'precharge')).toMatchObject({
      dueDate: day(60).slice(0, 10),
      state: 'later',
      onHold: { is: 'laid-up', untilDate: day(60).slice(0, 10) },
    });
    const late = await due(farm, `?well=orchard&until=${day(60).slice(0, 10)}`);
    expect(late.due.find(({ check }) => check === 'precharge')?.reasons[0]).toBe(
      `Laid up until ${day(60).slice(0, 10)}: on hold until then.`,
    );
    expect((await farm.post('/api/acts', { act: { kind: 'back-in-service', well: 'orchard' } })).status).toBe(
      200,
    );
    expect((await due(farm, '?well=orchard')).due.find(({ check }) => check === 'precharge')?.state).toBe(
      'overdue',
    );
  });
});

test('frost is made ready for by what the well’s own sensor measured last year', async () => {
  const farm = openTestApp();
  const { live, store } = farm.farm.deps;
  const base = (await live.well('orchard'))!;
  const sensors = [...base.sensors, { channel: 'temperature', node: 'orchard' }];
  live.well = async () => ({ ...base, sensors });
  store.chart = async (node, channel, fromMs, toMs, points) => {
    expect([node, channel]).toEqual(['orchard', 'temperature']);
    const stepMs = (toMs - fromMs) / points;
    // Warm up to 10 September. A step's day is that of its middle, here a quarter past midnight of
    // the 12th.
    const low = Array.from({ length: points }, (_, at) => {
      const month = new Date(fromMs + at * stepMs).toISOString().slice(5, 10);
      return month > '09-10' || month < '04-01' ? 1 : 15;
    });
    return { fromMs, stepMs, low, high: low, mean: low };
  };
  const row = (await checksOf(farm)).find(({ check }) => check === 'freeze');
  expect(row?.dueDate).toBe('2026-08-13');
  expect(row?.reasons[0]).toContain('first cold of the season on 2025-09-12');
});

describe('the calendar', () => {
  async function feed({ get }: Asked, query = '?well=orchard'): Promise<ICAL.Event[]> {
    const answer = await get(`/calendar.ics${query}`);
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    const whole = new ICAL.Component(ICAL.parse(await answer.text()));
    return whole.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
  }
  const precharge = (events: ICAL.Event[]) => events.find(({ uid }) => uid.startsWith('precharge.'))!;

  test('a check keeps its id when it was done, and moves', async () => {
    const farm = openTestApp();
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-200) });
    const before = precharge(await feed(farm));
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-1) });
    const after = precharge(await feed(farm));
    expect(after.uid).toBe(before.uid);
    expect(after.startDate.toString() > before.startDate.toString()).toBe(true);
  });

  test('an overdue check lasts through today, so that somebody sees it', async () => {
    const farm = openTestApp();
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-400) });
    const event = precharge(await feed(farm));
    expect(event.startDate.toString()).toBe(day(-35).slice(0, 10));
    expect(event.endDate.toString()).toBe(day(1).slice(0, 10));
  });

  test('nothing changed, the same bytes', async () => {
    const farm = openTestApp();
    const first = await (await farm.get('/calendar.ics')).text();
    farm.farm.clock.nowMs += 3_600_000;
    expect(await (await farm.get('/calendar.ics')).text()).toBe(first);
  });

  test('says the target, the cautions and where it is, and points nowhere outside', async () => {
    const farm = openTestApp();
    await write(farm, { kind: 'check', check: 'precharge', outcome: 'right', at: day(-200) });
    const answer = await (await farm.get('/calendar.ics?well=orchard')).text();
    const event = precharge(await feed(farm));
    expect(event.description).toMatch(/Target \d+ psi \(\d+ kPa\), 2 psi \(14 kPa\) below the cut-in/);
    expect(event.description).toContain('locked off');
    expect(answer).not.toMatch(/https?:|ATTACH|ATTENDEE|VALARM|mailto/);
  });

  test('of a well that is not there is none', async () => {
    expect((await openTestApp().get('/calendar.ics?well=nowhere')).status).toBe(404);
  });
});

describe('water tests over the API', () => {
  async function water({ get }: Asked): Promise<WaterAnswer> {
    return (await (await get('/api/wells/orchard/water')).json()) as WaterAnswer;
  }

  test('each result stands as it was written and beside its limits, newest test first', async () => {
    const farm = openTestApp();
    await write(farm, {
      kind: 'water-test',
      at: day(-500),
      laboratory: 'County laboratory',
      results: [{ analyte: 'Nitrate', value: '22', unit: 'mg/L as NO3' }],
    });
    await write(farm, {
      kind: 'water-test',
      at: day(-20),
      results: [
        { analyte: 'Nitrate', value: '5.5', unit: 'mg/L as N' },
        { analyte: 'Lead', value: '< 1', unit: 'ug/L' },
        { analyte: 'Hardness', value: '11', unit: 'gpg' },
        { analyte: 'Total coliform', value: 'present' },
        { analyte: 'Lithium', value: '4', unit: 'ug/L' },
      ],
    });
    const answer = await water(farm);
    expect(answer.tests.map(({ sampleDate }) => sampleDate)).toEqual([
      day(-20).slice(0, 10),
      day(-500).slice(0, 10),
    ]);
    const [newest, oldest] = answer.tests;
    expect(oldest?.results[0]?.value).toBeCloseTo(22 / 4.4268, 4);
    const [nitrate, lead, hardness, coliform, lithium] = newest!.results;
    expect(nitrate).toMatchObject({
      written: '5.5 mg/L as N',
      key: 'nitrate',
      advice: { text: expect.stringContaining('twice a year') },
    });
    expect(lead?.comparisons[0]).toMatchObject({
      verdict: 'under',
      limit: { kind: 'action', max: 0.01, effectiveFrom: { on: '2024-12-30' } },
    });
    expect(hardness).toMatchObject({ hardnessClass: 'very hard', remark: expect.stringContaining('17.118') });
    expect(coliform?.advice?.text).toContain('Call the health department');
    expect(lithium).toMatchObject({ name: 'Lithium', written: '4 ug/L', comparisons: [] });
    expect(answer.next).toMatchObject({ state: 'overdue', dueDate: day(-6).slice(0, 10) });
    expect(answer.missingYearly).toEqual(['Total dissolved solids', 'pH']);
  });

  test('without a test it asks for the four of every year', async () => {
    const answer = await water(openTestApp());
    expect(answer.tests).toEqual([]);
    expect(answer.missingYearly).toHaveLength(4);
  });
});
