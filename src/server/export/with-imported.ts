/**
 * The store as the pages see it: the past of a well that was watched elsewhere stands in one row
 * with what is measured here. Alarms from elsewhere never stand: whoever told them does not watch
 * any more.
 */
import type { ActRow } from '../../core/domain/act-row.ts';
import type { CycleRow } from '../../core/cycles/cycle-row.ts';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import type { ImportedRow, Store } from '../../store/store.ts';
import type { StoredAlarm, WebStore } from '../../http/deps.ts';
import { alarmKey, cycleKey, dayKey } from './keys.ts';

export function withImported(store: Store): WebStore {
  const rows = async <T>(
    kind: ImportedRow['kind'],
    well?: string,
    window?: { fromMs: number; toMs: number },
  ): Promise<T[]> =>
    // What is in the table was read by its shape before it was put there.
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    (await store.imported(kind, well, window)).map(({ row }) => row as T);
  return {
    chart: (...query) => store.chart(...query),
    nodes: () => store.nodes(),
    notices: (filter) => store.notices(filter),
    refused: (limit) => store.refused(limit),
    async acts(since) {
      const past = await rows<ActRow>('act', since.well, {
        fromMs: since.fromMs,
        toMs: Number.MAX_SAFE_INTEGER,
      });
      return mergeByTime(await store.acts(since), past, ({ atMs }) => atMs);
    },
    async cycles(well, fromMs, toMs) {
      const past = await rows<CycleRow>('cycle', well, { fromMs, toMs });
      return mergeByTime(
        without(await store.cycles(well, fromMs, toMs), past, cycleKey),
        past,
        ({ startedMs }) => startedMs,
      );
    },
    async days(well, fromMs, toMs) {
      const window = { fromMs: fromMs + 1, toMs: toMs + 1 };
      const past = await rows<{ event: DayEvent }>('day', well, window);
      const own = without(
        (await store.days(well, fromMs, toMs)).map((event) => ({ event })),
        past,
        dayKey,
      );
      return mergeByTime(own, past, ({ event }) => Date.parse(event.date)).map(({ event }) => event);
    },
    async baselines(well) {
      const past = (await rows<{ event: BaselineEvent }>('baseline', well)).map(({ event }) => event);
      return mergeByTime(await store.baselines(well), past, ({ at }) => Date.parse(at));
    },
    async alarms(filter) {
      const own = await store.alarms(filter);
      if (filter.active === true) return own;
      const past = (await rows<StoredAlarm>('alarm', filter.well))
        .filter((row) => lastMs(row) >= (filter.fromMs ?? 0))
        .map((row): StoredAlarm => ({ ...row, imported: true }));
      return mergeByTime(without(own, past, alarmKey), past, ({ sinceMs }) => sinceMs);
    },
  };
}

/** One that stood when the well changed hands is known of up to then only. */
function lastMs({ clearedMs, withdrawnMs, raisedMs }: StoredAlarm): number {
  return clearedMs ?? withdrawnMs ?? raisedMs;
}

function without<T>(own: readonly T[], past: readonly T[], keyOf: (row: T) => string): T[] {
  const keys = new Set(past.map(keyOf));
  return own.filter((row) => !keys.has(keyOf(row)));
}

/** Nearly always there is no past from elsewhere, and what is here is in order already. */
function mergeByTime<T>(own: T[], past: readonly T[], timeOf: (row: T) => number): T[] {
  return past.length === 0 ? own : [...past, ...own].toSorted((a, b) => timeOf(a) - timeOf(b));
}
