import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { WellEvent } from '../../shared/api/events.ts';
import { enqueue, newEventQueue, dequeueBefore } from '../../src/replay/event-queue.ts';

const day = (well: string, pump?: string): WellEvent => ({
  event: 'day',
  well,
  date: '2026-05-04',
  ...(pump && { pump }),
});
const alarm = (well: string, kind: 'leak' | 'no-run', state: 'raised' | 'cleared' = 'raised'): WellEvent => ({
  event: 'alarm',
  well,
  pump: 'p1',
  alarm: kind,
  state,
  at: '',
});
const cycle = (well: string, pump = 'p1'): WellEvent => ({
  event: 'cycle',
  well,
  pump,
  started: '',
  stopped: '',
  ranS: 0,
  flags: [],
});

/** In the contract's order. */
const LINES: [number, WellEvent][] = [
  [1, alarm('b', 'no-run')],
  [2, cycle('a')],
  [2, cycle('a', 'p2')],
  [2, cycle('b')],
  [2, day('a')],
  [2, day('a', 'p1')],
  [2, { event: 'baseline', well: 'a', pump: 'p1', at: '' }],
  [2, alarm('a', 'leak')],
  [2, alarm('a', 'no-run')],
  [2, alarm('b', 'leak')],
  [3, day('a')],
];

test('takeLines: by time, event, well, pump and kind, however they came', () => {
  fc.assert(
    fc.property(fc.shuffledSubarray(LINES, { minLength: LINES.length }), (shuffled) => {
      const order = newEventQueue();
      for (const [orderMs, event] of shuffled) enqueue(order, event, orderMs);
      const out: WellEvent[] = [];
      dequeueBefore(order, 2, (event) => out.push(event));
      expect(out).toEqual([LINES[0]![1]]);
      dequeueBefore(order, Number.POSITIVE_INFINITY, (event) => out.push(event));
      expect(out).toEqual(LINES.map(([, event]) => event));
    }),
    { seed: 2, numRuns: 100 },
  );
});

test('takeLines: what is equal in all of these stays as it came', () => {
  const order = newEventQueue();
  const lines = [alarm('a', 'leak', 'cleared'), alarm('a', 'leak', 'raised'), alarm('a', 'leak', 'cleared')];
  for (const line of lines) enqueue(order, line, 5);
  const out: WellEvent[] = [];
  dequeueBefore(order, 6, (event) => out.push(event));
  expect(out).toEqual(lines);
});
