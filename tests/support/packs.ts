/** Packs and hellos as short as a table wants them. */
import type { Hello, Pack, PackColumn } from '../../src/core/decode/messages.ts';
import type { PlacedPack } from '../../src/core/readings/placed-pack.ts';

/** A Monday, 12:00 UTC. */
export const NOON = Date.UTC(2026, 2, 2, 12);

export interface PackSpec {
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

export function pack(spec: PackSpec): Pack {
  const { node = 'barn', kind = 'readings', fromMs = NOON, everyMs = 1000, values = [1, 2, 3] } = spec;
  const { boot, seq, first, upMs } = spec;
  return {
    node,
    kind,
    ...(boot !== undefined && { boot }),
    ...(seq !== undefined && { seq }),
    ...(first !== undefined && { first }),
    ...(upMs !== undefined && { upMs }),
    clock: spec.clock ?? 'utc',
    columns: [column(spec.channel ?? 'current', fromMs, everyMs, values)],
    digest: spec.digest ?? (boot ?? 0) * 65_599 + (seq ?? 0) * 31,
  };
}

export function placed(spec: PackSpec): PlacedPack {
  const { node, kind, boot, seq, first, columns, digest } = pack(spec);
  return {
    node,
    kind,
    ...(boot !== undefined && { boot }),
    ...(seq !== undefined && { seq }),
    ...(first !== undefined && { first }),
    arrivalMs: (spec.fromMs ?? NOON) + 10_000,
    columns,
    digest,
  };
}

export function hello(fields: Partial<Hello>): Hello {
  return { node: 'barn', contract: 1, channels: [], ...fields };
}
