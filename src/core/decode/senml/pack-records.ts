/**
 * The records of a pack as a node makes them: the other direction of ./pack.ts, used by the
 * simulated wells and the tests. Readings go out in time order under one base time; what is read
 * back is what was put in.
 */
import { CHANNEL_UNITS, channelCode, baseOf } from '../../domain/channels.ts';
import type { FaultCode, Pack, PackColumn } from '../messages.ts';

/**
 * A pack to be sent. `clock` and the columns' times as in Pack: `utc` Unix ms, else ms relative to
 * the pack's own moment.
 */
export type PackToSend = Omit<Pack, 'kind' | 'digest' | 'skipped'>;

const FAULT_NAMES: Record<Exclude<FaultCode, 0>, string> = { 1: 'low', 2: 'high', 3: 'bad' };

/** One record with its labels written out, in the order in which they are sent. */
type SentRecord = Record<string, string | number | boolean>;

export function packRecords(pack: PackToSend): SentRecord[] {
  const readings = sortByTime(pack.columns);
  const baseMs = pack.clock === 'utc' ? (readings[0]?.timeMs ?? 0) : 0;
  return readings.map(({ column, at, timeMs }, place) => {
    const record: SentRecord = place === 0 ? packHeader(pack, baseMs) : {};
    record['n'] = column.channel;
    const code = channelCode(column.channel);
    if (code === undefined)
      throw new RangeError(`Cannot encode pack: the contract has no channel ${column.channel}`);
    const unit = CHANNEL_UNITS[baseOf(code)!];
    if (unit !== '') record['u'] = unit;
    if (timeMs !== baseMs) record['t'] = (timeMs - baseMs) / 1000;
    return setValue(record, column, at);
  });
}

function packHeader({ node, clock, boot, seq, first, upMs }: PackToSend, baseMs: number): SentRecord {
  return {
    bn: `${node}:`,
    ...(clock === 'utc' && { bt: baseMs / 1000 }),
    ...(boot !== undefined && { boot }),
    ...(seq !== undefined && { seq }),
    ...(first !== undefined && { first }),
    ...(clock === 'up' && upMs !== undefined && { up: upMs / 1000 }),
  };
}

function setValue(record: SentRecord, { channel, values, faults }: PackColumn, at: number): SentRecord {
  const fault = faults?.[at] ?? 0;
  const value = values[at]!;
  if (fault === 1 || fault === 2 || fault === 3) record['vs'] = FAULT_NAMES[fault];
  else if (channel.endsWith('contact')) record['vb'] = value !== 0;
  else record['v'] = value;
  return record;
}

/** All readings by time; at one time in the columns' order. */
function sortByTime(columns: readonly PackColumn[]): { column: PackColumn; at: number; timeMs: number }[] {
  const readings = columns.flatMap((column) =>
    Array.from(column.times, (timeMs, at) => ({ column, at, timeMs })),
  );
  return readings.sort((a, b) => a.timeMs - b.timeMs);
}
