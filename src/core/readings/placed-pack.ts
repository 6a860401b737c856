/**
 * A pack once it has its place in time: the durable unit of input. What is decided at arrival (the
 * placing of a pack whose clock can't be trusted, contract section 4) is decided once, here, and
 * kept with it; all later runs read it back.
 */
import type { PackColumn } from '../decode/messages.ts';

export interface PlacedPack {
  node: string;
  kind: 'readings' | 'start';
  boot?: number;
  seq?: number;
  first?: number;
  /** When its first copy came, Unix ms, by our clock. */
  arrivalMs: number;
  /** Columns with `times` in Unix ms. */
  columns: PackColumn[];
  digest: number;
  /**
   * Uptime at t = 0, for a node without a clock: with `arrivalMs` it is what the start of the boot
   * is found from.
   */
  upMs?: number;
  /** What was added to the node's own times, where a wrong clock was overruled. */
  shiftMs?: number;
  /**
   * These readings start a new segment: a wrong clock was overruled, overruled by another amount,
   * or trusted again.
   */
  clockStep?: true;
  /** No way to know when these were taken: kept, and used for nothing. */
  timeUnknown?: true;
}
