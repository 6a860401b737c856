import { expect, test } from 'vitest';
import { channelCode } from '../../../../src/core/domain/channels.ts';
import { columnsOf, resetRows } from '../../../../src/core/decode/senml/rows.ts';

function rowsOf(...list: [string, number, number, number][]): ReturnType<typeof resetRows> {
  const rows = resetRows();
  for (const [channel, timeMs, value, fault] of list) {
    rows.code[rows.n] = channelCode(channel)!;
    rows.timeMs[rows.n] = timeMs;
    rows.value[rows.n] = value;
    rows.fault[rows.n] = fault;
    rows.n++;
  }
  return rows;
}

test('columnsOf: by first appearance, arrays of exactly the readings, faults only where there are some', () => {
  const rows = rowsOf(
    ['pressure', 1, 300, 0],
    ['p15/contact', 1, 1, 0],
    ['pressure', 2, Number.NaN, 3],
    ['current', 2, 7.9, 0],
  );
  expect(columnsOf(rows)).toEqual([
    {
      channel: 'pressure',
      times: Float64Array.of(1, 2),
      values: Float64Array.of(300, Number.NaN),
      faults: Uint8Array.of(0, 3),
    },
    { channel: 'p15/contact', times: Float64Array.of(1), values: Float64Array.of(1) },
    { channel: 'current', times: Float64Array.of(2), values: Float64Array.of(7.9) },
  ]);
});

test('columnsOf: what one pack held is gone from the next, and the first keeps its own', () => {
  const first = columnsOf(rowsOf(['current', 1, 7.9, 2]));
  const second = columnsOf(rowsOf(['current', 5, 8.1, 0], ['level', 5, 20, 0]));
  expect(first).toEqual([
    { channel: 'current', times: Float64Array.of(1), values: Float64Array.of(7.9), faults: Uint8Array.of(2) },
  ]);
  expect(second).toEqual([
    { channel: 'current', times: Float64Array.of(5), values: Float64Array.of(8.1) },
    { channel: 'level', times: Float64Array.of(5), values: Float64Array.of(20) },
  ]);
  expect(columnsOf(resetRows())).toEqual([]);
});
