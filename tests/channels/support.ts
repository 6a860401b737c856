/** Notices of an invented farm, a clock that a test moves, and a store that forgets nothing. */
import type { NoticeRow } from '../../src/core/notify/notice-row.ts';
import type { NoticeStore, OutboxClock } from '../../src/channels/outbox.ts';
import { alarm, NOW_MS, person, raised } from '../core/notify/support.ts';
import { decideNotices } from '../../src/core/notify/decide-notices.ts';

export { NOW_MS };

/** A whole row as it is made when an alarm rises. */
export function notice(more: Partial<NoticeRow> = {}): NoticeRow {
  const recipient = person('anna');
  const [decision] = decideNotices(
    { after: alarm(raised()), event: raised() },
    { recipients: [recipient], nowMs: NOW_MS, units: 'us', timeZone: 'America/Denver' },
  );
  if (decision === undefined || !('row' in decision) || recipient.channels.length !== 1)
    throw new Error('no row was made');
  return { ...decision.row, ...more };
}

export interface MemoryStore extends NoticeStore {
  rows: Map<string, NoticeRow>;
}

/** As the store does it: due rows by due time, rows as they were when they were kept. */
export function memoryStore(rows: readonly NoticeRow[]): MemoryStore {
  const stored = new Map(rows.map((row) => [row.id, structuredClone(row)]));
  return {
    rows: stored,
    due: async (limit) =>
      [...stored.values()]
        .filter((row) => row.state === 'due')
        .sort((a, b) => a.dueMs - b.dueMs)
        .slice(0, limit)
        .map((row) => structuredClone(row)),
    mark: async (row) => void stored.set(row.id, structuredClone(row)),
  };
}

/**
 * Time stands until the test moves it; `run` goes from wake to wake until nothing is left before
 * `untilMs`.
 */
export function handClock(startMs = NOW_MS): OutboxClock & { run: (untilMs: number) => Promise<void> } {
  let nowMs = startMs;
  let wakes: { atMs: number; wake: () => void }[] = [];
  return {
    nowMs: () => nowMs,
    random: () => 0.5,
    after(ms, wake) {
      const entry = { atMs: nowMs + ms, wake };
      wakes.push(entry);
      return () => (wakes = wakes.filter((other) => other !== entry));
    },
    async run(untilMs) {
      for (;;) {
        await flushPromises();
        const next = wakes.filter(({ atMs }) => atMs <= untilMs).sort((a, b) => a.atMs - b.atMs)[0];
        if (next === undefined) break;
        wakes = wakes.filter((other) => other !== next);
        nowMs = Math.max(nowMs, next.atMs);
        next.wake();
      }
      nowMs = Math.max(nowMs, untilMs);
    },
  };
}

/** Lets promises that are ready run: senders in these tests answer at once. */
export async function flushPromises(): Promise<void> {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
  await new Promise((resolve) => setImmediate(resolve));
}

/** Rows for several people, as a busy hour makes them. */
export function noticeRows(count: number): NoticeRow[] {
  return Array.from({ length: count }, (_, at) =>
    notice({ id: `notice-${at}`, to: `person-${at % 5}`, createdMs: NOW_MS + at }),
  );
}
