/** Packs and hellos as short as a table wants them. */
import type { Hello, Pack, PackColumn } from '../../src/wire/messages.ts';
import type { PlacedPack } from '../../src/readings/placed.ts';

/** A Monday, 12:00 UTC. */
export const NOON = Date.UTC(2026, 2, 2, 12);

export interface PackNotes {
  node?: string;
  kind?: Pack['kind'];
  boot?: number;
  seq?: number;
  first?: number;
  /** Time of the first reading: Unix ms, or relative for other clocks. */
  fromMs?: number;
  everyMs?: number;
  values?: number[];
  channel?: string;
  clock?: Pack['clock'];
  upMs?: number;
  digest?: number;
}

export function column(
  channel: string,
  fromMs: number,
  everyMs: number,
  values: readonly number[],
): PackColumn {
  return {
    channel,
    times: Float64Array.from(values, (_, i) => fromMs + i * everyMs),
    values: Float64Array.from(values),
  };
}

export function pack(notes: PackNotes): Pack {
  const { node = 'barn', kind = 'readings', fromMs = NOON, everyMs = 1000, values = [1, 2, 3] } = notes;
  const { boot, seq, first, upMs } = notes;
  return {
    node,
    kind,
    ...(boot !== undefined && { boot }),
    ...(seq !== undefined && { seq }),
    ...(first !== undefined && { first }),
    ...(upMs !== undefined && { upMs }),
    clock: notes.clock ?? 'utc',
    columns: [column(notes.channel ?? 'current', fromMs, everyMs, values)],
    digest: notes.digest ?? (boot ?? 0) * 65_599 + (seq ?? 0) * 31,
  };
}

export function placed(notes: PackNotes): PlacedPack {
  const { node, kind, boot, seq, first, columns, digest } = pack(notes);
  return {
    node,
    kind,
    ...(boot !== undefined && { boot }),
    ...(seq !== undefined && { seq }),
    ...(first !== undefined && { first }),
    arrivalMs: (notes.fromMs ?? NOON) + 10_000,
    columns,
    digest,
  };
}

export function hello(notes: Partial<Hello>): Hello {
  return { node: 'barn', contract: 1, channels: [], ...notes };
}
