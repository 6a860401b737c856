/**
 * When a fault first shows in what is measured: a pump that cannot lift is seen in its next run, an
 * open breaker once the pressure is under cut-in. Only the plant knows when that is, so the label
 * of a case names the event and the plant its moment.
 */
import type { Showing } from './plan.ts';
import type { Second } from './state.ts';

export interface ShowingState {
  /** Begun since the onset. */
  runs: number;
  /** Since when the condition has held; for runs, when the last one began. */
  sinceMs: number;
}

export function showsNow(second: Second, showing: Showing): boolean {
  const { tMs } = second;
  if (tMs < showing.sinceMs) return false;
  switch (showing.is) {
    case 'run':
      return showsInRun(second, showing);
    case 'under-kpa':
      return hasHeld(second, second.kpa < showing.kpa, showing.forS);
    case 'over-kpa':
      return hasHeld(second, second.kpa > showing.kpa, showing.forS);
    case 'store-under':
      return hasHeld(second, second.storeM < showing.m, showing.forS);
    case 'level-under':
      return hasHeld(second, overIntakeM(second) < showing.m && isPumping(second), showing.forS);
    case 'house-under':
      return hasHeld(second, second.houseC < showing.c, showing.forS);
    default:
      return showing satisfies never;
  }
}

function overIntakeM({ plan, levelM }: Second): number {
  return plan.aquifer.intakeM - levelM;
}

function isPumping({ units }: Second): boolean {
  return units.some(({ on }) => on);
}

function hasHeld({ recorder: { showing }, tMs }: Second, holds: boolean, forS: number): boolean {
  if (!holds) showing.sinceMs = Number.NaN;
  else if (Number.isNaN(showing.sinceMs)) showing.sinceMs = tMs;
  return holds && tMs - showing.sinceMs >= 1000 * forS;
}

/** A run that was going on at the onset counts as the first. */
function showsInRun(second: Second, { sinceMs, nth, afterS }: Extract<Showing, { is: 'run' }>): boolean {
  const { recorder, units, tMs } = second;
  const { showing } = recorder;
  const longest = Math.max(...units.map(({ on, onS }) => (on ? onS : 0)));
  if (longest > 0 && Number.isNaN(showing.sinceMs)) {
    showing.sinceMs = Math.max(sinceMs, tMs - 1000 * longest);
    showing.runs++;
  } else if (longest === 0) showing.sinceMs = Number.NaN;
  return showing.runs >= nth && tMs - showing.sinceMs >= 1000 * afterS;
}
