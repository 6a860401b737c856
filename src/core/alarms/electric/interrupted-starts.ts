/**
 * Starts that something broke off within a second or two, and that were made again as soon. No
 * overload does that: it takes seconds to open on a held motor, and far longer to close again. So
 * these are contacts that chatter, and no motor that cannot start.
 */
import { DAY_MS } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { Active } from '../evaluation.ts';
import { isAfterReset } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** The overload of a held motor opens within ten seconds, not within two (common practice). */
const MAX_RUN_S = 2;
/** And its bimetal takes minutes to cool (common practice, no source). */
const MAX_REST_S = 3;
/** A bounce as contacts close is of one of them; so many in a minute are more (argued). */
const MIN_STARTS = 2;
const WINDOW_MS = 60_000;

/**
 * `nextStartMs`: when the pump started next; undefined where it has not. A tank without air makes
 * runs as short, but the motor comes up to speed in them.
 */
export function isInterruptedStart(
  { ranS, stoppedMs, flags }: Cycle,
  nextStartMs: number | undefined,
): boolean {
  return (
    flags.includes('failed-start') &&
    ranS <= MAX_RUN_S &&
    nextStartMs !== undefined &&
    nextStartMs - stoppedMs <= MAX_REST_S * 1000
  );
}

/** Active while a minute of the last day held some of them. */
export function interruptedStarts(scene: Scene): Active | undefined {
  const { cycles, run, card } = scene.pump;
  if (card.control === 'variable-speed') return undefined;
  const found = cycles.filter(
    (cycle, at) =>
      scene.atMs - cycle.startedMs <= DAY_MS &&
      isAfterReset(scene, cycle.startedMs) &&
      isInterruptedStart(cycle, cycles[at + 1]?.startedMs ?? run?.startedMs),
  );
  const last = found.findLast((_, at) => startsBefore(found, at).length >= MIN_STARTS);
  return last && finding(startsBefore(found, found.indexOf(last)));
}

function startsBefore(found: readonly Cycle[], at: number): Cycle[] {
  const { startedMs } = found[at]!;
  return found.slice(0, at + 1).filter((cycle) => startedMs - cycle.startedMs < WINDOW_MS);
}

function finding(broken: readonly Cycle[]): Active {
  // The start after the last of them is one as well.
  const starts = broken.length + 1;
  const inS = (broken.at(-1)!.stoppedMs - broken[0]!.startedMs) / 1000;
  const ranS = median(broken.map((cycle) => cycle.ranS))!;
  return {
    is: 'active',
    sinceMs: broken[0]!.startedMs,
    reason: 'starts-too-close',
    figures: { starts, inS, ranS },
    evidence: { starts, inS: roundTo(inS, 0), ranS: roundTo(ranS, 1) },
    causes: weighCauses({ 'switch-chatter': 0.75, 'blocked-nipple': 0.15, 'supply-voltage': 0.1 }),
  };
}
