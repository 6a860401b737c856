/**
 * The lines of a replay in the contract's order (section 6): by time, then event, well, pump and
 * kind. A line waits here until nothing that is still to come could stand before it.
 */
import TinyQueue from 'tinyqueue';
import type { WellEvent } from '../../shared/api/events.ts';

interface QueuedEvent {
  orderMs: number;
  event: WellEvent;
  /** What came first stays first where all else is equal. */
  seq: number;
}

/** Its first event on top. */
export interface EventQueue {
  events: TinyQueue<QueuedEvent>;
  nextSeq: number;
}

const RANKS: Record<WellEvent['event'], number> = { cycle: 0, day: 1, baseline: 2, alarm: 3 };

export function newEventQueue(): EventQueue {
  return { events: new TinyQueue([], compare), nextSeq: 0 };
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

export function enqueue(queue: EventQueue, event: WellEvent, orderMs: number): void {
  queue.events.push({ orderMs, event, seq: queue.nextSeq++ });
}

/** Hands out, in order, every event before `untilMs`. */
export function dequeueBefore(
  { events }: EventQueue,
  untilMs: number,
  emit: (event: WellEvent) => void,
): void {
  while ((events.peek()?.orderMs ?? Infinity) < untilMs) emit(events.pop()!.event);
}
