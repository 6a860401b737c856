/**
 * Where a pack belongs in time (contract, section 2). A true clock is believed; a wrong one is
 * overruled by the arrival of the pack's first copy; a node without a clock is placed by when its
 * boot began. Decided once, at arrival, and kept with the pack.
 */
import type { Pack, PackColumn } from '../decode/messages.ts';
import type { BootState } from './boot.ts';
import { lastMsBelow } from './seq-ranges.ts';
import { updateUpClock, type UpClock } from './up-clock.ts';

/** The contract's tolerance, ahead of arrival and behind an earlier pack. */
const CLOCK_TOLERANCE_MS = 300_000;
/** No node of this contract measured anything before 2024. */
const EARLIEST_TIME_MS = Date.UTC(2024, 0, 1);
/**
 * A pack that goes on from an overruled one has the same wrong clock; half of what would be a step
 * by itself.
 */
const SAME_CLOCK_TOLERANCE_MS = CLOCK_TOLERANCE_MS / 2;
/**
 * Overruled packs keep one shift while the network's delay alone explains the difference: periods
 * stay exact.
 */
const SHIFT_TOLERANCE_MS = 5_000;
/**
 * A hello marked as retained is the live one all the same if the packs' uptime agrees with it to
 * within this.
 */
const RETAINED_HELLO_TOLERANCE_MS = 10_000;

export interface Placement {
  columns: PackColumn[];
  /** First and last reading, Unix ms. */
  fromMs: number;
  toMs: number;
  upClock?: UpClock;
  shiftMs?: number;
  clockStep?: true;
  timeUnknown?: true;
}

/**
 * Places a pack. `boot` is what is known of its boot, absent for packs without one; it is not
 * changed. `builtMs`: of its hello, or 0.
 */
export function placePack(
  pack: Pack,
  boot: BootState | undefined,
  arrivalMs: number,
  builtMs: number,
): Placement {
  const span = spanOf(pack.columns);
  switch (pack.clock) {
    case 'utc':
      return placeByUtc(pack, span, boot, arrivalMs, builtMs);
    case 'up':
      if (pack.boot === undefined || pack.upMs === undefined)
        return shiftTimes(pack.columns, span, arrivalMs);
      return placeByUptime(pack.columns, span, boot, pack.upMs, arrivalMs);
    case 'arrival':
      return shiftTimes(pack.columns, span, arrivalMs);
    default:
      return pack.clock satisfies never;
  }
}

interface Span {
  fromMs: number;
  toMs: number;
}

export function spanOf(columns: readonly PackColumn[]): Span {
  let fromMs = Number.POSITIVE_INFINITY;
  let toMs = Number.NEGATIVE_INFINITY;
  for (const { times } of columns) {
    for (let i = 0; i < times.length; i++) {
      const t = times[i]!;
      if (t < fromMs) fromMs = t;
      if (t > toMs) toMs = t;
    }
  }
  return { fromMs, toMs };
}

function shiftTimes(columns: readonly PackColumn[], span: Span, byMs: number): Placement {
  return {
    columns: columns.map((column) => ({ ...column, times: column.times.map((t) => t + byMs) })),
    fromMs: span.fromMs + byMs,
    toMs: span.toMs + byMs,
  };
}

function placeByUtc(
  pack: Pack,
  span: Span,
  boot: BootState | undefined,
  arrivalMs: number,
  builtMs: number,
): Placement {
  const overruled = boot?.overruled;
  if (!isClockWrong(pack, span, boot, arrivalMs, builtMs)) {
    const back = overruled !== undefined && pack.seq !== undefined && pack.seq > overruled.seq;
    return { columns: pack.columns, ...span, ...(back && { clockStep: true }) };
  }
  const byArrivalMs = Math.round(arrivalMs - span.toMs);
  const same = overruled !== undefined && Math.abs(byArrivalMs - overruled.shiftMs) <= SHIFT_TOLERANCE_MS;
  const shiftMs = same ? overruled.shiftMs : byArrivalMs;
  return { ...shiftTimes(pack.columns, span, shiftMs), shiftMs, ...(!same && { clockStep: true }) };
}

function isClockWrong(
  pack: Pack,
  span: Span,
  boot: BootState | undefined,
  arrivalMs: number,
  builtMs: number,
): boolean {
  if (span.toMs > arrivalMs + CLOCK_TOLERANCE_MS) return true;
  if (span.fromMs < Math.max(EARLIEST_TIME_MS, builtMs)) return true;
  if (!boot || pack.seq === undefined) return false;
  if (span.fromMs < lastMsBelow(boot.ranges, pack.seq) - CLOCK_TOLERANCE_MS) return true;
  // Else a clock that stepped back would be believed again as soon as it had crept up to the last
  // trusted time.
  const { overruled } = boot;
  return (
    overruled !== undefined &&
    pack.seq > overruled.seq &&
    Math.abs(span.fromMs - overruled.claimedMs) <= SAME_CLOCK_TOLERANCE_MS
  );
}

function placeByUptime(
  columns: readonly PackColumn[],
  span: Span,
  boot: BootState | undefined,
  upMs: number,
  arrivalMs: number,
): Placement {
  const retainedHello =
    boot?.retainedHello && retainedHelloAgrees(boot.retainedHello, upMs, arrivalMs) === 'yes'
      ? boot.retainedHello
      : undefined;
  if (!boot?.live && !retainedHello) return { ...shiftTimes(columns, span, arrivalMs), timeUnknown: true };
  const before =
    boot?.upClock ?? (retainedHello && updateUpClock(undefined, retainedHello.upMs, retainedHello.arrivalMs));
  const upClock = updateUpClock(before, upMs, arrivalMs);
  return { ...shiftTimes(columns, span, Math.round(upClock.anchorMs + upMs)), upClock };
}

/**
 * Whether a hello marked as retained came while the boot ran. A copy that a broker had kept is
 * older than it seems, so the boot would seem to have begun later than by its packs; a message that
 * was only passed on with its mark agrees with them. `not-yet`: a backlog says nothing either way.
 */
export function retainedHelloAgrees(
  retainedHello: { arrivalMs: number; upMs: number },
  upMs: number,
  arrivalMs: number,
): 'yes' | 'no' | 'not-yet' {
  const laterMs = arrivalMs - upMs - (retainedHello.arrivalMs - retainedHello.upMs);
  if (Math.abs(laterMs) <= RETAINED_HELLO_TOLERANCE_MS) return 'yes';
  return laterMs < 0 ? 'no' : 'not-yet';
}
