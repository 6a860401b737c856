/**
 * A recording as it grows: what came over MQTT and what people did, one line each in the order of
 * arrival (contract, section 6). It begins with the wells' cards, calibrations and whatever else
 * stands, so that it can be replayed without anything beside it. Acts are looked up now and then in
 * the server's store; messages wait for that, so that the act that explains them stands before
 * them.
 */
import { formatActLine, formatMessageLine } from '../core/decode/recording.ts';
import type { MessageInfo } from '../mqtt/broker.ts';
import type { ActRow } from '../store/store.ts';

export interface Recorder {
  message: (topic: string, payload: Uint8Array, how: Pick<MessageInfo, 'retained'>) => void;
  /**
   * Takes the acts that were not taken yet, and writes what came since the last time in its order:
   * up to `beforeMs`, when the acts were asked for, since they do not explain what came after that.
   */
  acts: (rows: readonly ActRow[], beforeMs?: number) => void;
  counts: { messages: number; acts: number };
}

interface PendingLine {
  atMs: number;
  /** At one moment acts come first. */
  rank: 0 | 1;
  text: string;
}

/** `write` takes whole lines; `now` is our clock. */
export function newRecorder(write: (line: string) => void, now: () => number): Recorder {
  const recordedIds = new Set<string>();
  const counts = { messages: 0, acts: 0 };
  let pending: PendingLine[] = [];
  return {
    counts,
    message(topic, payload, how) {
      counts.messages++;
      const atMs = now();
      const text = formatMessageLine({ tstMs: atMs, topic, payload, retained: how.retained });
      pending.push({ atMs, rank: 1, text });
    },
    acts(rows, beforeMs = Number.POSITIVE_INFINITY) {
      for (const row of rows) {
        if (recordedIds.has(row.id)) continue;
        recordedIds.add(row.id);
        counts.acts++;
        pending.push({ atMs: row.atMs, rank: 0, text: formatActLine(row.atMs, row.body) });
      }
      // The sort is stable: what came at one moment stays in the order in which it came.
      const due = pending.filter(({ atMs }) => atMs < beforeMs);
      for (const { text } of due.toSorted((a, b) => a.atMs - b.atMs || a.rank - b.rank)) write(text);
      pending = pending.filter(({ atMs }) => atMs >= beforeMs);
    },
  };
}

/** Acts that go on counting until another one of the same well ends them. */
const ENDED_BY: Record<string, readonly string[]> = {
  'visit-opened': ['visit-closed'],
  'out-of-service': ['back-in-service'],
  'laid-up': ['back-in-service'],
};

/**
 * What a recording opens with, told as of `atMs`: the card that each well has now, how each channel
 * is calibrated, what is pinned, and visits, lay-ups and expectations that stand, since all of them
 * change what readings mean. Acts that explain only their own time are left behind; so are what was
 * seen and shelved, which are of alarms that the recording does not know.
 */
export function activeActs(rows: readonly ActRow[], atMs: number): ActRow[] {
  const active = new Map<string, ActRow>();
  for (const row of rows) {
    for (const [kind, ends] of Object.entries(ENDED_BY))
      if (ends.includes(row.kind)) active.delete(`${kind}/${row.well}`);
    const body = row.body as { node?: string; channel?: string; pump?: string; newBaseline?: boolean };
    if (row.kind === 'visit-closed' && body.newBaseline === true) removePins(active, row.well);
    const key = activeKey(row, body);
    if (key === undefined) continue;
    // The newest of a key comes last, as it was done.
    active.delete(key);
    active.set(key, row);
  }
  return [...active.values()]
    .filter((row) => !isExpired(row, atMs))
    .map((row) => ({ ...row, id: `${row.id}/now`, atMs }));
}

function activeKey(
  row: ActRow,
  body: { node?: string; channel?: string; pump?: string },
): string | undefined {
  switch (row.kind) {
    case 'card-changed':
    case 'visit-opened':
    case 'out-of-service':
    case 'laid-up':
      return `${row.kind}/${row.well}`;
    case 'calibrated':
      return `points/${body.node}:${body.channel}`;
    case 'pinned':
    case 'expected':
      return `${row.kind}/${row.well}/${row.id}`;
    default:
      return undefined;
  }
}

/** After a new start of learning the old pins are no measure any more. */
function removePins(active: Map<string, ActRow>, well: string | undefined): void {
  for (const [key, row] of active) if (row.kind === 'pinned' && row.well === well) active.delete(key);
}

/** What stands until a time that has gone by. */
function isExpired({ kind, body }: ActRow, atMs: number): boolean {
  const { until } = body as { until?: string };
  return (kind === 'expected' || kind === 'laid-up') && until !== undefined && Date.parse(until) <= atMs;
}
