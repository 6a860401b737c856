/**
 * A recording as it grows: what came over MQTT and what people did, one line each in the order of arrival (contract, section 6). It
 * begins with the wells' cards and calibrations, so that it can be replayed without anything beside it.
 */
import { printActLine, printMessageLine } from '../wire/recording.ts';
import type { Arrival } from '../broker/broker.ts';
import type { ActRow } from '../store/store.ts';

export interface Recorder {
  message: (topic: string, payload: Uint8Array, how: Pick<Arrival, 'retained'>) => void;
  /** Takes the acts that were not taken yet. */
  acts: (rows: readonly ActRow[]) => void;
  counts: { messages: number; acts: number };
}

/** `write` takes whole lines; `now` is our clock. */
export function newRecorder(write: (line: string) => void, now: () => number): Recorder {
  const taken = new Set<string>();
  const counts = { messages: 0, acts: 0 };
  return {
    counts,
    message(topic, payload, how) {
      counts.messages++;
      write(printMessageLine({ tstMs: now(), topic, payload, retained: how.retained }));
    },
    acts(rows) {
      for (const row of rows) {
        if (taken.has(row.id)) continue;
        taken.add(row.id);
        counts.acts++;
        write(printActLine(row.atMs, row.body));
      }
    },
  };
}

/**
 * What a recording opens with, told as of `atMs`: the card that each well has now, and how each channel is calibrated, since both change
 * what readings mean. Acts that explain only their own time are left behind.
 */
export function standingActs(rows: readonly ActRow[], atMs: number): ActRow[] {
  const newest = new Map<string, ActRow>();
  for (const row of rows) {
    if (row.kind === 'card-changed' && row.well !== undefined) newest.set(`card/${row.well}`, row);
    else if (row.kind === 'calibrated') {
      const { node, channel } = row.body as { node: string; channel: string };
      newest.set(`points/${node}:${channel}`, row);
    }
  }
  return [...newest.values()].map((row) => ({ ...row, id: `${row.id}/now`, atMs }));
}
