/**
 * The lines of a replay in the contract's order (section 6): by time, then event, well, pump and kind. A line waits here until nothing
 * that is still to come could stand before it.
 */
import type { WellEvent } from '../../shared/api/events.ts';

interface QueuedEvent {
  orderMs: number;
  event: WellEvent;
  /** What came first stays first where all else is equal. */
  seq: number;
}

/** A binary heap, its first line on top. */
export interface EventQueue {
  heap: QueuedEvent[];
  nextSeq: number;
}

const RANKS: Record<WellEvent['event'], number> = { cycle: 0, day: 1, baseline: 2, alarm: 3 };

export function newEventQueue(): EventQueue {
  return { heap: [], nextSeq: 0 };
}

function kindOf(event: WellEvent): string {
  return event.event === 'alarm' ? event.alarm : '';
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}

function compare(a: QueuedEvent, b: QueuedEvent): number {
  return (
    a.orderMs - b.orderMs ||
    RANKS[a.event.event] - RANKS[b.event.event] ||
    compareText(a.event.well ?? '', b.event.well ?? '') ||
    compareText(a.event.pump ?? '', b.event.pump ?? '') ||
    compareText(kindOf(a.event), kindOf(b.event)) ||
    a.seq - b.seq
  );
}

export function enqueue(order: EventQueue, event: WellEvent, orderMs: number): void {
  const { heap } = order;
  const entry = { orderMs, event, seq: order.nextSeq++ };
  let at = heap.length;
  heap.push(entry);
  while (at > 0) {
    const above = (at - 1) >> 1;
    if (compare(heap[above]!, entry) <= 0) break;
    heap[at] = heap[above]!;
    at = above;
  }
  heap[at] = entry;
}

/** Hands out, in order, every line that stands before `untilMs`. */
export function dequeueBefore(order: EventQueue, untilMs: number, emit: (event: WellEvent) => void): void {
  while (order.heap.length > 0 && order.heap[0]!.orderMs < untilMs) emit(dequeue(order).event);
}

function dequeue({ heap }: EventQueue): QueuedEvent {
  const first = heap[0]!;
  const last = heap.pop()!;
  if (heap.length === 0) return first;
  let at = 0;
  for (;;) {
    let below = 2 * at + 1;
    if (below >= heap.length) break;
    if (below + 1 < heap.length && compare(heap[below + 1]!, heap[below]!) < 0) below++;
    if (compare(last, heap[below]!) <= 0) break;
    heap[at] = heap[below]!;
    at = below;
  }
  heap[at] = last;
  return first;
}
