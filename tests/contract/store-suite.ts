/**
 * What every store must do, whatever it keeps things in: one suite that takes a factory. Readings
 * are checked against a model that keeps them in a plain map.
 */
import fc from 'fast-check';
import { afterEach, describe, expect, test } from 'vitest';
import type { AlarmEvent } from '../../shared/api/events.ts';
import type { PlacedPack } from '../../src/core/readings/placed-pack.ts';
import type { AlarmRow, Change, NoticeRow, Series, Store } from '../../src/store/store.ts';
import { packsSinceSave } from '../support/packs-since-save.ts';

export interface StoreUnderTest {
  store: Store;
  /** Closes and opens again what was kept; absent where nothing outlives closing. */
  reopen?: () => Promise<Store>;
  end(): Promise<void>;
}

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** A Monday, 12:00 UTC. */
const NOON = Date.UTC(2026, 2, 2, 12);
/** Long after everything: all that waits is sealed. */
const LATER = NOON + 400 * DAY;

interface PackNotes extends Partial<Omit<PlacedPack, 'columns'>> {
  /** One letter or number a reading: numbers are values, `l` `h` `b` faults, `-` is no reading. */
  readings?: string;
  fromMs?: number;
  everyMs?: number;
  channel?: string;
}

const FAULTS: Record<string, number> = { l: 1, h: 2, b: 3 };

/** `pack({ readings: '1 2 l - 3' })`: a pack in a small notation. */
function pack(notes: PackNotes): PlacedPack {
  const { readings = '1 2 3', fromMs = NOON, everyMs = 1000, channel = 'current', ...rest } = notes;
  const marks = readings.split(' ').map((mark, i) => ({ mark, t: fromMs + i * everyMs }));
  const taken = marks.filter(({ mark }) => mark !== '-');
  const faults = Uint8Array.from(taken, ({ mark }) => FAULTS[mark] ?? 0);
  const column = {
    channel,
    times: Float64Array.from(taken, ({ t }) => t),
    values: Float64Array.from(taken, ({ mark }) => (FAULTS[mark] ? Number.NaN : Number(mark))),
    ...(faults.some((fault) => fault !== 0) ? { faults } : {}),
  };
  return { node: 'barn', kind: 'readings', arrivalMs: NOON + 60_000, digest: 1, ...rest, columns: [column] };
}

const packs = (...list: PackNotes[]): Change[] =>
  list.map((notes) => ({ change: 'pack', pack: pack(notes) }));

/** A series in the notation of `pack`, one second a place. */
function reported(series: Series, fromMs = NOON, everyMs = 1000): string {
  const places: string[] = [];
  for (let i = 0; i < series.n; i++) {
    const place = (series.timeMs[i]! - fromMs) / everyMs;
    while (places.length < place) places.push('-');
    const fault = series.fault[i]!;
    places.push(fault === 0 ? String(series.value[i]) : ' lhb'[fault]!);
  }
  return places.join(' ');
}

async function sealAll(store: Store): Promise<void> {
  while (await store.maintain(LATER, 1000));
}

function alarmEvent(more: Partial<AlarmEvent> = {}): AlarmEvent {
  return {
    event: 'alarm',
    well: 'north',
    pump: 'p1',
    alarm: 'long-run',
    state: 'raised',
    at: '2026-03-02T12:00:00.000Z',
    ...more,
  };
}

function alarmRow(id: string, more: Partial<AlarmRow> = {}): AlarmRow {
  return {
    id,
    well: 'north',
    pump: 'p1',
    alarm: 'long-run',
    state: 'unacknowledged',
    sinceMs: NOON,
    raisedMs: NOON,
    event: alarmEvent(),
    ...more,
  };
}

function noticeRow(id: string, more: Partial<NoticeRow> = {}): NoticeRow {
  return {
    id,
    alarmId: 'a',
    to: 'ana',
    what: 'raised',
    dueMs: NOON,
    createdMs: NOON,
    tries: 0,
    state: 'due',
    body: { subject: 's', text: 't', event: alarmEvent() },
    ...more,
  };
}

export function storeSuite(name: string, start: () => StoreUnderTest): void {
  describe(`a store by contract: ${name}`, () => {
    const ends: (() => Promise<void>)[] = [];
    afterEach(async () => {
      for (const end of ends.splice(0)) await end();
    });

    function open(): StoreUnderTest {
      const under = start();
      ends.push(() => under.end());
      return under;
    }

    const read = async (store: Store, channel = 'current'): Promise<string> =>
      reported(await store.readings('barn', channel, NOON, NOON + DAY));

    describe('readings', () => {
      const cases: [string, PackNotes[], string][] = [
        ['one pack', [{}], '1 2 3'],
        ['two in order', [{}, { fromMs: NOON + 3000, readings: '4 5' }], '1 2 3 4 5'],
        ['two out of order', [{ fromMs: NOON + 3000, readings: '4 5' }, {}], '1 2 3 4 5'],
        [
          'one within another',
          [{ readings: '1 - - 4' }, { fromMs: NOON + 1000, readings: '2 3' }],
          '1 2 3 4',
        ],
        ['the same twice', [{}, {}], '1 2 3'],
        ['a hole', [{ readings: '1 - - 2' }], '1 - - 2'],
        ['faults', [{ readings: '1 l h b 2' }], '1 l h b 2'],
        ['of two values of one time the smaller', [{ readings: '5 5' }, { readings: '7 3' }], '5 3'],
        ['a number before a fault', [{ readings: 'l 2' }, { readings: '1 h' }], '1 2'],
        ['of two faults the lower code', [{ readings: 'b' }, { readings: 'h' }], 'h'],
        ['negative and fine values', [{ readings: '-0.25 0.001 1e-9 312400' }], '-0.25 0.001 1e-9 312400'],
      ];
      test.each(cases)('%s', async (_, list, wanted) => {
        const { store } = open();
        for (const notes of list) await store.commit(packs(notes));
        expect(await read(store)).toBe(wanted);
      });
      test.each(cases)('%s, sealed after each pack', async (_, list, wanted) => {
        const { store } = open();
        for (const notes of list) {
          await store.commit(packs(notes));
          await sealAll(store);
        }
        expect(await read(store)).toBe(wanted);
        expect((await store.stats()).unsealedReadings).toBe(0);
      });
      test.each(cases)('%s, first sealed, rest open, opened again', async (_, list, wanted) => {
        const { store, reopen } = open();
        for (const [i, notes] of list.entries()) {
          await store.commit(packs(notes));
          if (i === 0) await sealAll(store);
        }
        expect(await read(await (reopen?.() ?? store))).toBe(wanted);
      });

      test('are cut at [from, to)', async () => {
        const { store } = open();
        await store.commit(packs({ readings: '1 2 3 4 5' }));
        const cut = async (): Promise<string> =>
          reported(await store.readings('barn', 'current', NOON + 1000, NOON + 3000));
        expect(await cut()).toBe('- 2 3');
        await sealAll(store);
        expect(await cut()).toBe('- 2 3');
        expect((await store.readings('barn', 'current', NOON + 60_000, NOON + DAY)).n).toBe(0);
      });

      test('of unknown nodes and channels are none', async () => {
        const { store } = open();
        expect((await store.readings('barn', 'pressure', 0, LATER)).n).toBe(0);
        expect(await store.channels('barn')).toEqual([]);
        expect(await store.firstReadingMs('barn', 'pressure')).toBeUndefined();
      });

      test('of start packs and of unknown time stand apart', async () => {
        const { store } = open();
        await store.commit(
          packs({}, { kind: 'start', readings: '40' }, { timeUnknown: true, readings: '9' }),
        );
        expect(await store.channels('barn')).toEqual(['current', 'start:current']);
        expect(await read(store)).toBe('1 2 3');
        expect(await read(store, 'start:current')).toBe('40');
        expect(await read(store, 'untimed:current')).toBe('9');
      });

      test('that come a week late lie between sealed ones', async () => {
        const { store } = open();
        const day = (from: number, value: number): PackNotes => ({
          fromMs: NOON + from * DAY,
          everyMs: 600_000,
          readings: Array.from({ length: 144 }, () => value).join(' '),
        });
        await store.commit(packs(day(0, 1), day(2, 3)));
        await sealAll(store);
        await store.commit(packs(day(1, 2)));
        for (const when of ['open', 'sealed']) {
          const series = await store.readings('barn', 'current', 0, LATER);
          expect([when, series.n, series.value[200], series.value[300]]).toEqual([when, 432, 2, 3]);
          await sealAll(store);
        }
      });

      test('first and clock steps are found', async () => {
        const { store, reopen } = open();
        await store.commit(packs({ fromMs: NOON + 5000, clockStep: true }, {}));
        expect(await store.firstReadingMs('barn', 'current')).toBe(NOON);
        await sealAll(store);
        const again = await (reopen?.() ?? store);
        expect(await again.firstReadingMs('barn', 'current')).toBe(NOON);
        expect(await again.clockSteps('barn', NOON, NOON + DAY)).toEqual([NOON + 5000]);
        expect(await again.clockSteps('barn', NOON, NOON + 5000)).toEqual([]);
      });

      test('equal a plain map, whatever the order, doubling, sealing and closing', async () => {
        const reading = fc.record({
          node: fc.constantFrom('barn', 'pond'),
          channel: fc.constantFrom('current', 'pressure'),
          place: fc.integer({ min: 0, max: 40 }),
          readings: fc.array(fc.constantFrom('0.01', '0.02', '7.91', 'l', 'b', '-', '0.3333333333333333'), {
            minLength: 1,
            maxLength: 12,
          }),
        });
        const step = fc.oneof(
          { weight: 6, arbitrary: reading.map((it) => ({ is: 'pack' as const, ...it })) },
          { weight: 1, arbitrary: fc.constant({ is: 'seal' as const }) },
          { weight: 1, arbitrary: fc.constant({ is: 'reopen' as const }) },
        );
        await fc.assert(
          fc.asyncProperty(fc.array(step, { maxLength: 30 }), async (steps) => {
            const under = start();
            let { store } = under;
            const model = new Map<string, Map<number, string>>();
            try {
              for (const it of steps) {
                if (it.is === 'seal') await sealAll(store);
                else if (it.is === 'reopen') store = (await under.reopen?.()) ?? store;
                else {
                  const fromMs = NOON + it.place * 1000;
                  const { node, channel } = it;
                  await store.commit(packs({ node, channel, fromMs, readings: it.readings.join(' ') }));
                  keepInModel(model, `${node} ${channel}`, fromMs, it.readings);
                }
              }
              for (const node of ['barn', 'pond']) {
                for (const channel of ['current', 'pressure']) {
                  const wanted = [...(model.get(`${node} ${channel}`) ?? [])].sort(([a], [b]) => a - b);
                  const series = await store.readings(node, channel, 0, LATER);
                  expect(reported(series)).toBe(reportedModel(wanted));
                }
              }
            } finally {
              await under.end();
            }
          }),
          { seed: 20260302, numRuns: 60 },
        );
      });
    });

    describe('charts', () => {
      test.each([
        ['of an hour', HOUR, 60],
        ['of a day', DAY, 100],
        ['of twenty days, made of summaries', 20 * DAY, 40],
      ])('%s equal the readings', async (_, span, points) => {
        const { store } = open();
        const everyMs = 120_000;
        const count = span / everyMs;
        const fromMs = NOON - (NOON % DAY);
        for (let i = 0; i < count; i += 500) {
          const readings = Array.from({ length: Math.min(500, count - i) }, (_, k) => {
            const place = i + k;
            if (place % 97 === 5) return 'l';
            return place % 1000 < 300 ? '-' : String(((place * 37) % 400) / 100);
          });
          await store.commit(packs({ fromMs: fromMs + i * everyMs, everyMs, readings: readings.join(' ') }));
          if (i === 500) await sealAll(store);
        }
        const check = async (): Promise<void> => {
          const chart = await store.chart('barn', 'current', fromMs, fromMs + span, points);
          const series = await store.readings('barn', 'current', fromMs, fromMs + span);
          expect(chart.low.length).toBeLessThanOrEqual(points);
          expect(chart.fromMs).toBeLessThanOrEqual(fromMs);
          expect(chart.fromMs + chart.stepMs * chart.low.length).toBeGreaterThanOrEqual(fromMs + span);
          chart.low.forEach((low, i) => {
            const start = chart.fromMs + i * chart.stepMs;
            const end = start + chart.stepMs;
            const inStep = [...series.value].filter(
              (_, k) => series.fault[k] === 0 && series.timeMs[k]! >= start && series.timeMs[k]! < end,
            );
            if (inStep.length === 0) {
              expect([low, chart.high[i], chart.mean[i]]).toEqual([null, null, null]);
              return;
            }
            expect(low).toBe(Math.min(...inStep));
            expect(chart.high[i]).toBe(Math.max(...inStep));
            expect(chart.mean[i]).toBeCloseTo(inStep.reduce((a, b) => a + b, 0) / inStep.length, 9);
          });
        };
        await check();
        await sealAll(store);
        await check();
        // Late and doubled readings, open beside sealed ones.
        await store.commit(packs({ fromMs: fromMs + span / 2, everyMs, readings: '9 9 9 9' }));
        await check();
      });

      test('without readings are empty, and refuse nonsense', async () => {
        const { store } = open();
        expect((await store.chart('barn', 'current', NOON, NOON + HOUR, 3)).low).toEqual([null, null, null]);
        await expect(store.chart('barn', 'current', NOON, NOON, 3)).rejects.toThrow(/Cannot make chart/);
        await expect(store.chart('barn', 'current', NOON, NOON + 1, 0)).rejects.toThrow(/Cannot make chart/);
      });
    });

    describe('packs since a node was saved', () => {
      const seqs = async (store: Store): Promise<string[]> =>
        (await packsSinceSave(store)).map(({ node, seq }) => `${node} ${seq}`);
      const saved = (node: string, savedMs: number): Change => ({
        change: 'node',
        row: { node, approved: true, state: { savedMs }, savedMs },
      });

      test('are those of later commits, and of the same commit those after it in the list', async () => {
        const { store, reopen } = open();
        await store.commit(packs({ seq: 1 }, { node: 'pond', seq: 1 }));
        expect(await seqs(store)).toEqual(['barn 1', 'pond 1']);
        await store.commit([...packs({ seq: 2 }), saved('barn', 1), ...packs({ seq: 3 })]);
        expect(await seqs(store)).toEqual(['pond 1', 'barn 3']);
        await store.commit([saved('pond', 2)]);
        await store.commit(packs({ node: 'pond', seq: 2 }));
        await sealAll(store);
        expect(await seqs(await (reopen?.() ?? store))).toEqual(['barn 3', 'pond 2']);
      });

      test('come back whole', async () => {
        const { store, reopen } = open();
        const whole: PlacedPack = {
          ...pack({ readings: '1.25 l 3', node: 'pond' }),
          kind: 'start',
          boot: 2 ** 53 - 1,
          seq: 12,
          first: 3,
          upMs: 123_456.5,
          clockStep: true,
          timeUnknown: true,
          digest: -77,
        };
        await store.commit([{ change: 'pack', pack: whole }]);
        expect(await packsSinceSave(await (reopen?.() ?? store))).toEqual([whole]);
      });

      test('are not passed over by a row with the same saved state', async () => {
        const { store } = open();
        await store.commit([saved('barn', 1), ...packs({ seq: 1 })]);
        await store.commit([saved('barn', 1)]);
        await store.commit([{ change: 'node', row: { node: 'barn', approved: false } }]);
        expect(await seqs(store)).toEqual(['barn 1']);
      });

      test('of a node that nobody saves are let go of after a day', async () => {
        const { store } = open();
        await store.commit([saved('pond', 1), ...packs({ seq: 1 }, { node: 'pond', seq: 1 })]);
        while (await store.maintain(NOON + HOUR, 1000));
        expect(await seqs(store)).toEqual(['barn 1', 'pond 1']);
        await store.commit([saved('pond', 2)]);
        while (await store.maintain(NOON + 2 * DAY, 1000));
        expect(await seqs(store)).toEqual([]);
        expect(await read(store)).toBe('1 2 3');
      });
    });

    test('a commit is all or nothing', async () => {
      const { store } = open();
      const cannotBeWritten: Change = {
        change: 'act',
        row: { id: 'x', atMs: NOON, kind: 'tick', body: { big: 1n } },
      };
      await expect(
        store.commit([...packs({ seq: 1 }), { change: 'setting', key: 'k', value: 'v' }, cannotBeWritten]),
      ).rejects.toThrow();
      expect(await store.getValue('k')).toBeUndefined();
      expect(await read(store)).toBe('');
      expect(await packsSinceSave(store)).toEqual([]);
      await store.commit(packs({ seq: 2 }));
      expect(await read(store)).toBe('1 2 3');
    });

    test('nodes keep what a change leaves out', async () => {
      const { store, reopen } = open();
      const hello = { node: 'barn', contract: 1, channels: [] };
      await store.commit([{ change: 'node', row: { node: 'barn', approved: false, hello, lastHeardMs: 5 } }]);
      await store.commit([
        { change: 'node', row: { node: 'barn', approved: true, state: { a: 1 }, savedMs: 9 } },
      ]);
      expect(await (await (reopen?.() ?? store)).nodes()).toEqual([
        { node: 'barn', approved: true, hello, lastHeardMs: 5, state: { a: 1 }, savedMs: 9 },
      ]);
    });

    test('a forgotten node is gone, and new when it comes again; the others and what it sent stay', async () => {
      const { store, reopen } = open();
      const row = (node: string) => ({ node, approved: true, state: { a: 1 }, savedMs: 9 });
      await store.commit([
        { change: 'node', row: row('barn') },
        { change: 'node', row: row('weir') },
      ]);
      await store.commit([{ change: 'node-forgotten', node: 'barn' }]);
      await store.commit([{ change: 'node-forgotten', node: 'nobody' }]);
      expect(await store.nodes()).toEqual([row('weir')]);
      await store.commit([{ change: 'node', row: { node: 'barn', approved: false } }]);
      expect(await (await (reopen?.() ?? store)).nodes()).toEqual([
        { node: 'barn', approved: false },
        row('weir'),
      ]);
    });

    test('credentials come and go', async () => {
      const { store } = open();
      const row = { node: 'barn', secret: 'salt:hash', createdMs: NOON, speaksFor: ['pond'] };
      await store.commit([{ change: 'credential', row }]);
      await store.commit([{ change: 'credential', row: { ...row, secret: 'other:hash' } }]);
      expect(await store.credentials()).toEqual([{ ...row, secret: 'other:hash' }]);
      await store.commit([{ change: 'credential-removed', node: 'barn' }]);
      expect(await store.credentials()).toEqual([]);
    });

    test('acts are found by well, with those of no well, by time, once', async () => {
      const { store } = open();
      const act = (id: string, atMs: number, well?: string): Change => ({
        change: 'act',
        row: { id, atMs, kind: 'visit-opened', body: { id }, ...(well ? { well } : {}) },
      });
      await store.commit([
        act('c', NOON + 2, 'north'),
        act('a', NOON, 'north'),
        act('b', NOON + 1),
        act('d', NOON, 'south'),
      ]);
      await store.commit([act('a', NOON, 'north')]);
      const ids = async (since: Parameters<Store['acts']>[0]): Promise<string> =>
        (await store.acts(since)).map(({ id }) => id).join('');
      expect(await ids({ well: 'north', fromMs: 0 })).toBe('abc');
      expect(await ids({ well: 'north', fromMs: NOON + 1 })).toBe('bc');
      expect(await ids({ fromMs: 0 })).toBe('adbc');
    });

    test('news is kept once, by time', async () => {
      const { store } = open();
      const heard: Change = {
        change: 'news',
        well: 'north',
        atMs: NOON + 1,
        body: { news: 'heard', node: 'barn' },
      };
      await store.commit([heard, { ...heard, atMs: NOON }, heard, { ...heard, well: 'south' }]);
      expect(await store.news('north', 0)).toEqual([
        { atMs: NOON, body: { news: 'heard', node: 'barn' } },
        { atMs: NOON + 1, body: { news: 'heard', node: 'barn' } },
      ]);
      expect(await store.news('north', NOON + 1)).toHaveLength(1);
    });

    describe('what is derived', () => {
      const cycle = (startedMs: number, pump = 'p1', ranS = 60): Change => ({
        change: 'cycle',
        row: {
          startedMs,
          stoppedMs: startedMs + ranS * 1000,
          event: { event: 'cycle', well: 'north', pump, started: 'a', stopped: 'b', ranS, flags: [] },
        },
      });
      const dayOf = (date: string, endedMs: number, pump?: string): Change => ({
        change: 'day',
        endedMs,
        event: { event: 'day', well: 'north', date, ...(pump ? { pump } : {}) },
      });
      const baselineAt = (atMs: number, amps: number): Change => ({
        change: 'baseline',
        atMs,
        event: { event: 'baseline', well: 'north', pump: 'p1', at: 'x', amps },
      });

      test('is one row a thing, ordered, by span', async () => {
        const { store } = open();
        await store.commit([cycle(NOON + HOUR), cycle(NOON), cycle(NOON, 'p2'), cycle(NOON, 'p1', 90)]);
        const ran = async (from: number, to: number): Promise<string[]> =>
          (await store.cycles('north', from, to)).map(({ event }) => `${event.pump} ${event.ranS}`);
        expect(await ran(0, LATER)).toEqual(['p1 90', 'p2 60', 'p1 60']);
        expect(await ran(NOON, NOON + HOUR)).toEqual(['p1 90', 'p2 60']);
        await store.commit([
          dayOf('2026-03-02', NOON + DAY),
          dayOf('2026-03-02', NOON + DAY, 'p1'),
          dayOf('2026-03-01', NOON),
        ]);
        const dates = async (from: number, to: number): Promise<string[]> =>
          (await store.days('north', from, to)).map(({ date }) => date);
        expect(await dates(0, LATER)).toEqual(['2026-03-01', '2026-03-02', '2026-03-02']);
        expect(await dates(NOON, NOON + DAY)).toEqual(['2026-03-02', '2026-03-02']);
        await store.commit([baselineAt(NOON + 1, 8), baselineAt(NOON, 7.9), baselineAt(NOON + 1, 8.1)]);
        expect((await store.baselines('north')).map(({ amps }) => amps)).toEqual([7.9, 8.1]);
        expect(await store.baselines('south')).toEqual([]);
      });

      test('is forgotten from a time on, of one well, and alarms stay', async () => {
        const { store } = open();
        const snapshot = (atMs: number): Change => ({
          change: 'snapshot',
          well: 'north',
          atMs,
          state: Uint8Array.of(1, 2, 3),
        });
        await store.commit([
          cycle(NOON - HOUR),
          cycle(NOON - 30_000),
          dayOf('2026-03-01', NOON - 1),
          dayOf('2026-03-02', NOON),
          baselineAt(NOON - 1, 1),
          baselineAt(NOON, 2),
          snapshot(NOON - 1),
          snapshot(NOON),
          snapshot(NOON + 1),
          { change: 'alarm', row: alarmRow('a') },
        ]);
        await store.commit([{ change: 'delete-derived', well: 'south', fromMs: 0 }]);
        await store.commit([{ change: 'delete-derived', well: 'north', fromMs: NOON }]);
        expect(await store.cycles('north', 0, LATER)).toHaveLength(1);
        expect((await store.days('north', 0, LATER)).map(({ date }) => date)).toEqual(['2026-03-01']);
        expect((await store.baselines('north')).map(({ amps }) => amps)).toEqual([1]);
        expect((await store.snapshot('north', LATER))?.atMs).toBe(NOON);
        expect(await store.alarms({})).toHaveLength(1);
      });

      test('may be made anew in the commit that forgets it', async () => {
        const { store } = open();
        await store.commit([cycle(NOON)]);
        await store.commit([{ change: 'delete-derived', well: 'north', fromMs: NOON }, cycle(NOON + 1000)]);
        expect((await store.cycles('north', 0, LATER)).map(({ startedMs }) => startedMs)).toEqual([
          NOON + 1000,
        ]);
      });
    });

    test('what another Stillwell handed over stays when what was made here is forgotten', async () => {
      const { store, reopen } = open();
      const cycle = (well: string, atMs: number, key: string, row: unknown): Change => ({
        change: 'imported',
        row: { well, kind: 'cycle', key, atMs, row },
      });
      await store.commit([
        cycle('north', NOON, 'b', { ran: 1 }),
        cycle('north', NOON - 1, 'a', {}),
        cycle('south', NOON, 'b', {}),
      ]);
      await store.commit([
        cycle('north', NOON, 'b', { ran: 2 }),
        { change: 'delete-derived', well: 'north', fromMs: 0 },
      ]);
      const again = await (reopen?.() ?? store);
      const found = (await again.imported('cycle', 'north')).map(({ key, row }) => [key, row]);
      expect(found).toEqual([
        ['a', {}],
        ['b', { ran: 2 }],
      ]);
      expect(await again.imported('cycle', 'north', { fromMs: NOON, toMs: NOON + 1 })).toHaveLength(1);
      expect(await again.imported('cycle')).toHaveLength(3);
      expect(await again.imported('day')).toEqual([]);
      expect(await again.importedWells()).toEqual(['north', 'south']);
    });

    test('the past of a well is found whole in one query, with the times by which it is kept', async () => {
      const { store } = open();
      const day = { event: 'day', well: 'north', date: '2026-03-01' } as const;
      const entry = {
        id: 'e',
        well: 'north',
        kind: 'note',
        atMs: NOON,
        createdMs: NOON,
        body: { text: 'x' },
      } as const;
      const imported = { well: 'north', kind: 'alarm', key: 'k', atMs: 5, row: {} } as const;
      await store.commit([
        { change: 'day', event: day, endedMs: NOON },
        { change: 'entry', entry },
        { change: 'alarm', row: alarmRow('a') },
        { change: 'alarm', row: alarmRow('b', { well: 'south' }) },
        { change: 'act', row: { id: 'all', atMs: NOON, kind: 'server-away', body: {} } },
        { change: 'imported', row: imported },
        { change: 'imported', row: { ...imported, well: 'south' } },
      ]);
      expect(await store.past('north')).toEqual({
        cycles: [],
        days: [{ endedMs: NOON, event: day }],
        baselines: [],
        acts: [{ id: 'all', atMs: NOON, kind: 'server-away', body: {} }],
        entries: [entry],
        alarms: [alarmRow('a')],
        imported: [imported],
      });
      const other = await store.past('south');
      expect([other.days, other.entries]).toEqual([[], []]);
    });

    test('alarms are one row a life, found by well, time and standing', async () => {
      const { store } = open();
      await store.commit([
        { change: 'alarm', row: alarmRow('b', { sinceMs: NOON + 2 }) },
        { change: 'alarm', row: alarmRow('a') },
        { change: 'alarm', row: alarmRow('c', { well: 'south', sinceMs: NOON + 3 }) },
      ]);
      await store.commit([
        { change: 'alarm', row: alarmRow('a', { clearedMs: NOON + 10, state: 'normal' }) },
      ]);
      const ids = async (filter: Parameters<Store['alarms']>[0]): Promise<string> =>
        (await store.alarms(filter)).map(({ id }) => id).join('');
      expect(await ids({})).toBe('abc');
      expect(await ids({ well: 'north' })).toBe('ab');
      expect(await ids({ active: true })).toBe('bc');
      expect(await ids({ active: false })).toBe('a');
      expect(await ids({ fromMs: NOON + 10 })).toBe('abc');
      expect(await ids({ fromMs: NOON + 11 })).toBe('bc');
      expect((await store.alarms({ well: 'north', active: false }))[0]?.state).toBe('normal');
    });

    test('notices come when due, and go forward only', async () => {
      const { store, reopen } = open();
      await store.commit([
        { change: 'notice', row: noticeRow('late', { dueMs: NOON + 10 }) },
        { change: 'notice', row: noticeRow('now') },
      ]);
      const due = async (from: Store, atMs: number): Promise<string[]> =>
        (await from.notices({ state: 'due', dueBeforeMs: atMs })).map(({ id, tries }) => `${id} ${tries}`);
      expect(await due(store, NOON)).toEqual(['now 0']);
      expect(await due(store, NOON + 10)).toEqual(['now 0', 'late 0']);
      expect(await store.notices({ limit: 1 })).toHaveLength(1);
      await store.commit([
        { change: 'notice', row: noticeRow('now', { state: 'sent', sentMs: NOON + 1 }) },
        { change: 'notice', row: noticeRow('late', { tries: 2, dueMs: NOON + 20 }) },
      ]);
      // Both are made once more, as after a crash.
      await store.commit([
        { change: 'notice', row: noticeRow('now') },
        { change: 'notice', row: noticeRow('late', { dueMs: NOON + 10 }) },
      ]);
      const again = await (reopen?.() ?? store);
      expect(await due(again, NOON + 30)).toEqual(['late 2']);
      expect((await again.notices({ state: 'sent' })).map(({ sentMs }) => sentMs)).toEqual([NOON + 1]);
    });

    test('refusals are counted for ever and the last 200 kept', async () => {
      const { store } = open();
      const refusal = (i: number, reason: string): Change => ({
        change: 'refused',
        row: { atMs: NOON + i, topic: 't', reason, detail: `no ${i}`, head: '' },
      });
      await store.commit(
        Array.from({ length: 450 }, (_, i) => refusal(i, i % 3 === 0 ? 'empty' : 'not-json')),
      );
      await store.commit([refusal(450, 'empty')]);
      expect((await store.refused(0)).counts).toEqual([
        { reason: 'not-json', count: 300, lastMs: NOON + 449 },
        { reason: 'empty', count: 151, lastMs: NOON + 450 },
      ]);
      expect((await store.refused(2)).last.map(({ detail }) => detail)).toEqual(['no 450', 'no 449']);
      expect((await store.refused(1000)).last).toHaveLength(200);
      await store.commit([
        {
          change: 'refused',
          row: { atMs: NOON + 451, topic: 't', reason: 'empty', detail: 'more', head: '', countOnly: true },
        },
      ]);
      expect((await store.refused(1)).counts[1]).toEqual({ reason: 'empty', count: 152, lastMs: NOON + 451 });
      expect((await store.refused(1)).last.map(({ detail }) => detail)).toEqual(['no 450']);
    });

    test('snapshots are found at or before a time, and thinned', async () => {
      const { store, reopen } = open();
      const put = (atMs: number): Change => ({
        change: 'snapshot',
        well: 'north',
        atMs,
        state: Uint8Array.from({ length: 2000 }, (_, i) => (atMs / 600_000 + i) % 251),
      });
      await store.commit([put(NOON), put(NOON + 600_000)]);
      expect(await store.snapshot('north', NOON - 1)).toBeUndefined();
      expect((await store.snapshot('north', NOON + 599_999))?.atMs).toBe(NOON);
      expect(await store.snapshot('south', LATER)).toBeUndefined();
      await store.commit(Array.from({ length: 10 * 144 }, (_, i) => put(NOON + i * 600_000)));
      await sealAll(store);
      const again = await (reopen?.() ?? store);
      const end = NOON + (10 * 144 - 1) * 600_000;
      const found = await again.snapshot('north', end);
      expect(found).toEqual({
        atMs: end,
        state: Uint8Array.from({ length: 2000 }, (_, i) => (end / 600_000 + i) % 251),
      });
      // Going back from one to the one before: every ten minutes of an hour, every hour of a day,
      // every day of eight.
      const kept: number[] = [];
      for (let at = end; ;) {
        const next = await again.snapshot('north', at);
        if (!next) break;
        kept.push((end - next.atMs) / 600_000);
        at = next.atMs - 1;
      }
      expect(kept.filter((age) => age <= 6)).toEqual([0, 1, 2, 3, 4, 5, 6]);
      const gaps = (from: number, to: number): number[] =>
        kept.flatMap((age, i) => (age > from && age <= to ? [age - kept[i - 1]!] : []));
      expect(Math.max(...gaps(6, 144))).toBeLessThanOrEqual(12);
      expect(Math.max(...gaps(144, 1152))).toBeLessThanOrEqual(2 * 144);
      expect(Math.max(...kept)).toBeGreaterThan(7 * 144);
      expect(kept.length).toBeLessThanOrEqual(7 + 25 + 9);
      expect(Math.max(...kept)).toBeLessThanOrEqual(8 * 144);
    });

    test('rerun marks keep the earlier time until done', async () => {
      const { store } = open();
      await store.commit([{ change: 'rerun-mark', well: 'north', fromMs: NOON }]);
      await store.commit([
        { change: 'rerun-mark', well: 'north', fromMs: NOON + 5 },
        { change: 'rerun-mark', well: 'south', fromMs: 7 },
      ]);
      expect(await store.rerunMarks()).toEqual([
        { well: 'north', fromMs: NOON },
        { well: 'south', fromMs: 7 },
      ]);
      await store.commit([{ change: 'rerun-mark', well: 'north', fromMs: null }]);
      expect(await store.rerunMarks()).toEqual([{ well: 'south', fromMs: 7 }]);
    });

    test('values are set, changed and removed', async () => {
      const { store, reopen } = open();
      await store.commit([{ change: 'setting', key: 'k', value: '1' }]);
      await store.commit([{ change: 'setting', key: 'k', value: '2' }]);
      const again = await (reopen?.() ?? store);
      expect(await again.getValue('k')).toBe('2');
      await again.commit([{ change: 'setting', key: 'k', value: null }]);
      expect(await again.getValue('k')).toBeUndefined();
    });

    test('retention lets go of old readings alone', async () => {
      const { store } = open();
      await store.commit(packs({ fromMs: NOON - 4000 * DAY }, { fromMs: NOON }));
      // Once to seal them, and at the next look, an hour later, to let go.
      while (await store.maintain(NOON + HOUR, 1000));
      while (await store.maintain(NOON + 3 * HOUR, 1000));
      expect(await store.firstReadingMs('barn', 'current')).toBe(NOON);
      expect((await store.stats()).sealedReadings).toBe(3);
    });

    test('retention lets go of old rows, and of none that is still needed', async () => {
      const { store } = open();
      const old = NOON - 4000 * DAY;
      await store.commit([
        { change: 'alarm', row: alarmRow('ended', { sinceMs: old, clearedMs: old + 1, state: 'normal' }) },
        { change: 'alarm', row: alarmRow('to-send', { sinceMs: old, clearedMs: old + 1, state: 'normal' }) },
        { change: 'alarm', row: alarmRow('active', { sinceMs: old }) },
        { change: 'alarm', row: alarmRow('recent', { sinceMs: NOON, clearedMs: NOON, state: 'normal' }) },
        { change: 'notice', row: noticeRow('sent', { dueMs: old, state: 'sent', sentMs: old }) },
        { change: 'notice', row: noticeRow('due', { dueMs: old, alarmId: 'to-send' }) },
        { change: 'news', well: 'north', atMs: old, body: 'a' },
        { change: 'news', well: 'north', atMs: NOON, body: 'b' },
        { change: 'news', well: 'south', atMs: old, body: 'no snapshot is newer' },
        { change: 'snapshot', well: 'north', atMs: NOON, state: new Uint8Array([1]) },
        { change: 'refused', row: { atMs: old, topic: 't', reason: 'empty', detail: 'old', head: '' } },
        { change: 'refused', row: { atMs: NOON, topic: 't', reason: 'empty', detail: 'new', head: '' } },
      ]);
      while (await store.maintain(NOON + HOUR, 1000));
      const ids = (rows: readonly { id: string }[]): string[] => rows.map(({ id }) => id).sort();
      expect(ids(await store.alarms({}))).toEqual(['active', 'recent', 'to-send']);
      expect(ids(await store.notices({}))).toEqual(['due']);
      expect((await store.news('north', 0)).map(({ body }) => body)).toEqual(['b']);
      expect(await store.news('south', 0)).toHaveLength(1);
      expect((await store.refused(9)).last.map(({ detail }) => detail)).toEqual(['new']);
      expect((await store.refused(9)).counts).toMatchObject([{ reason: 'empty', count: 2 }]);
    });

    test('retention lets go of old cycles, days and baselines, and keeps the newest baseline of a pump', async () => {
      const { store } = open();
      const atMs = [NOON - 4000 * DAY, NOON];
      const baseline = (pump: string, ms: number): Change => ({
        change: 'baseline',
        atMs: ms,
        event: { event: 'baseline', well: 'north', pump, at: 'x', amps: 8 },
      });
      await store.commit([
        ...atMs.flatMap((ms): Change[] => [
          {
            change: 'cycle',
            row: {
              startedMs: ms,
              stoppedMs: ms + 1000,
              event: {
                event: 'cycle',
                well: 'north',
                pump: 'p1',
                started: 'a',
                stopped: 'b',
                ranS: 1,
                flags: [],
              },
            },
          },
          {
            change: 'day',
            endedMs: ms,
            event: { event: 'day', well: 'north', date: new Date(ms).toISOString().slice(0, 10) },
          },
          baseline('p1', ms),
        ]),
        baseline('p2', atMs[0]!),
      ]);
      while (await store.maintain(NOON + HOUR, 1000));
      const { cycles, days, baselines } = await store.past('north');
      expect(cycles.map(({ startedMs }) => startedMs)).toEqual([NOON]);
      expect(days.map(({ endedMs }) => endedMs)).toEqual([NOON]);
      expect(baselines.map((row) => [row.event.pump, row.atMs])).toEqual([
        ['p2', atMs[0]],
        ['p1', NOON],
      ]);
    });

    test('stats count readings sealed and open', async () => {
      const { store } = open();
      await store.commit(packs({}));
      expect(await store.stats()).toMatchObject({ unsealedReadings: 3, sealedReadings: 0, unsavedNodes: 1 });
      await sealAll(store);
      expect(await store.stats()).toMatchObject({ unsealedReadings: 0, sealedReadings: 3 });
    });
  });
}

function keepInModel(
  model: Map<string, Map<number, string>>,
  key: string,
  fromMs: number,
  readings: readonly string[],
): void {
  const series = model.get(key) ?? new Map<number, string>();
  model.set(key, series);
  readings.forEach((mark, i) => {
    const t = fromMs + i * 1000;
    const old = series.get(t);
    if (mark !== '-') series.set(t, old === undefined ? mark : chosen(old, mark));
  });
}

/** Of two readings of one time: a number before a fault, the smaller number, the lower fault. */
function chosen(a: string, b: string): string {
  const rank = (mark: string): [number, number] => (FAULTS[mark] ? [1, FAULTS[mark]] : [0, Number(mark)]);
  const [x, y] = [rank(a), rank(b)];
  return x[0] < y[0] || (x[0] === y[0] && x[1] <= y[1]) ? a : b;
}

function reportedModel(readings: readonly (readonly [number, string])[]): string {
  const places: string[] = [];
  for (const [t, mark] of readings) {
    while (places.length < (t - NOON) / 1000) places.push('-');
    places.push(mark);
  }
  return places.join(' ');
}
