/**
 * A SenML pack of ours, whatever its bytes were: resolved names under the topic's node, channels,
 * units and values as the contract's section 2 has them, or the reason why not.
 */
import { VALUE_BOUNDS } from '../../domain/channel-bounds.ts';
import { CHANNEL_UNITS, channelCode, type BaseChannel, baseOf, isCurrent } from '../../domain/channels.ts';
import { digestOf } from './digest.ts';
import { ABSOLUTE_FROM_S, MAX_RECORDS, MAX_TIME_S } from '../limits.ts';
import type { FaultCode, Pack, Refusal } from '../messages.ts';
import { isRefusal, refuse, formatValue } from '../refuse.ts';
import { columnsOf, resetRows } from './rows.ts';
import type { Rows } from './rows.ts';
import type { PackSource } from '../wire-format.ts';
import { isJsonObject, resolveSenml } from './senml.ts';
import type { JsonObject, ResolvedRecord } from './senml.ts';

type PackHeader = Pick<Pack, 'boot' | 'seq' | 'first' | 'upMs'>;

const FAULTS: Record<string, FaultCode> = { low: 1, high: 2, bad: 3 };
const MAX_SKIPPED_NAME_CHARACTERS = 80;

/** A pack from the value that a format has read, or the refusal of its bytes. Never throws. */
export function readRecords(source: PackSource, read: { value: unknown } | Refusal): Pack | Refusal {
  if (isRefusal(read)) return read;
  const records = read.value;
  if (!Array.isArray(records)) return refuse('not-a-pack', 'pack-list', { value: formatValue(records) });
  if (records.length === 0) return refuse('empty', 'pack-no-records', { max: MAX_RECORDS });
  if (records.length > MAX_RECORDS) {
    return refuse('too-many-records', 'pack-records', { max: MAX_RECORDS, records: records.length });
  }
  const first = isJsonObject(records[0]) ? records[0] : {};
  const pack = readResolved(source, records, first);
  return isRefusal(pack) ? { ...pack, ...refusedPackIds(pack, first) } : pack;
}

/**
 * Of a refused pack whose boot and seq can be read all the same, nothing more is wanted. One that
 * bears another node's name counts for nobody: it may not be this node's at all.
 */
function refusedPackIds({ refused }: Refusal, { boot, seq }: JsonObject): Pick<Refusal, 'boot' | 'seq'> {
  return refused !== 'name-mismatch' && isCount(boot) && isCount(seq) ? { boot, seq } : {};
}

function readResolved(source: PackSource, records: unknown[], first: JsonObject): Pack | Refusal {
  const resolved = resolveSenml(records);
  if (isRefusal(resolved)) return resolved;
  const header = readHeader(first);
  if (isRefusal(header)) return header;
  const clock = readClock(resolved, header);
  if (typeof clock === 'object') return clock;
  return packOf(source, resolved, header, clock);
}

/**
 * `boot`, `seq`, `first` and `up` of the first record; on any other they are ignored like unknown
 * keys.
 */
function readHeader({ boot, seq, first, up }: JsonObject): PackHeader | Refusal {
  const header: PackHeader = {};
  if (boot !== undefined || seq !== undefined || first !== undefined) {
    if (!isCount(boot)) return refuse('bad-boot', 'boot', { value: formatValue(boot) });
    if (!isCount(seq)) return refuse('bad-seq', 'seq', { value: formatValue(seq) });
    header.boot = boot;
    header.seq = seq;
  }
  if (first !== undefined) {
    if (!isCount(first) || first > header.seq!) {
      return refuse('bad-seq', 'first', { seq: header.seq!, value: formatValue(first) });
    }
    header.first = first;
  }
  if (up !== undefined) {
    if (typeof up !== 'number' || !(up >= 0 && up <= MAX_TIME_S)) {
      return refuse('bad-time', 'up', { value: formatValue(up) });
    }
    header.upMs = Math.round(up * 1000);
  }
  return header;
}

function isCount(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value) && value >= 1;
}

/** One clock for a whole pack: Unix time, uptime, or arrival. */
function readClock(records: readonly ResolvedRecord[], { upMs }: PackHeader): Pack['clock'] | Refusal {
  const absolute = records[0]!.timeS >= ABSOLUTE_FROM_S;
  for (const { timeS } of records) {
    if (timeS >= ABSOLUTE_FROM_S !== absolute) {
      return refuse('bad-time', 'mixed-times', { firstS: records[0]!.timeS, timeS });
    }
    if (Math.abs(timeS) > MAX_TIME_S) return refuse('bad-time', 'no-calendar', { timeS });
    if (upMs !== undefined && timeS > 0) {
      return refuse('bad-time', 'later-than-up', { timeS });
    }
  }
  return absolute ? 'utc' : upMs === undefined ? 'arrival' : 'up';
}

function packOf(
  source: PackSource,
  records: readonly ResolvedRecord[],
  header: PackHeader,
  clock: Pack['clock'],
): Pack | Refusal {
  const rows = resetRows();
  const skipped = new Map<string, number>();
  const prefix = `${source.node}:`;
  for (const [at, record] of records.entries()) {
    if (!record.name.startsWith(prefix)) {
      return refuse('name-mismatch', 'node-name', {
        node: source.node,
        place: at + 1,
        value: formatValue(record.name),
      });
    }
    const channel = record.name.slice(prefix.length);
    const code = channelCode(channel);
    if (code === undefined || (source.kind === 'start' && !isCurrent(code))) {
      const name = channel.slice(0, MAX_SKIPPED_NAME_CHARACTERS);
      skipped.set(name, (skipped.get(name) ?? 0) + 1);
      continue;
    }
    const refusal = addRow(rows, code, record, at + 1);
    if (refusal !== undefined) return refusal;
  }
  if (rows.n === 0) {
    return refuse('unknown-channel', 'channels', {
      pack: source.kind,
      channels: formatValue([...skipped.keys()].join(' ')),
    });
  }
  const pack: Pack = {
    node: source.node,
    kind: source.kind,
    ...header,
    clock,
    columns: columnsOf(rows),
    digest: digestOf(source.bytes),
  };
  if (skipped.size > 0) pack.skipped = [...skipped].map(([channel, count]) => ({ channel, count }));
  return pack;
}

function addRow(rows: Rows, code: number, record: ResolvedRecord, place: number): Refusal | undefined {
  const base = baseOf(code)!;
  // A boolean has no unit, and under a base unit a node has no way to say so: what stands there is
  // no word about it.
  if (base !== 'contact' && record.unit !== undefined && record.unit !== CHANNEL_UNITS[base]) {
    return refuse('wrong-unit', 'unit', {
      channel: base,
      unit: CHANNEL_UNITS[base],
      place,
      value: formatValue(record.unit),
    });
  }
  const read = readValue(base, record, place);
  if (typeof read === 'object') return read;
  rows.code[rows.n] = code;
  rows.timeMs[rows.n] = Math.round(record.timeS * 1000) + 0;
  rows.value[rows.n] = read;
  rows.fault[rows.n] = record.vs === undefined ? 0 : FAULTS[record.vs]!;
  rows.n++;
  return undefined;
}

/** The value of a record, NaN for a fault. */
function readValue(base: BaseChannel, { v, vs, vb }: ResolvedRecord, place: number): number | Refusal {
  if (vs !== undefined) {
    return Object.hasOwn(FAULTS, vs)
      ? Number.NaN
      : refuse('not-a-number', 'fault-word', { place, value: formatValue(vs) });
  }
  if (base === 'contact') {
    return vb === undefined ? refuse('no-value', 'no-contact', { channel: base, place }) : Number(vb);
  }
  if (v === undefined) return refuse('no-value', 'no-number', { channel: base, place });
  const { low, high } = VALUE_BOUNDS[base];
  return v >= low && v <= high
    ? v
    : refuse('out-of-range', 'bounds', {
        channel: base,
        low,
        high,
        unit: CHANNEL_UNITS[base],
        place,
        value: v,
      });
}
