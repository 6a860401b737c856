/**
 * A well of little yield is often pumped until it is empty, on purpose: a protector stops the pump
 * at the first of air, and starts it again when the well has filled. Where the card names one, a
 * run that it ended in time is its work and no alarm; one note says how long a run the well allows.
 */
import { FORM_EVIDENCE } from '../../../../shared/alarms/form-evidence.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import type { Active } from '../evaluation.ts';
import { isAfterReset } from '../scene-queries.ts';
import type { PumpScene, Scene } from '../scene.ts';

/** Protectors trip within seconds to half a minute (common practice, no source). */
export const MAX_DRY_BY_DESIGN_MS = 60_000;
/**
 * Rests so much longer than the card's say that the protector waits longer each time, or that
 * somebody has to start it: the well gives less.
 */
const GROWN_REST_RATIO = 1.5;
const MIN_GROWN_RESTS = 2;

/** Timers of protectors are set by a knob: some minutes off is as good as right. */
export const PROTECTOR_MARGIN_S = 300;

/**
 * A protector that stopped the pump before its cut-out starts it again by itself: that is told of
 * the dry run. Past its time it is news.
 */
export function isProtectorWaiting(pump: PumpScene, atMs: number): boolean {
  const { protectorRestartS } = pump.card;
  const last = pump.cycles[pump.cycles.length - 1];
  if (protectorRestartS === undefined || pump.run || !last) return false;
  if (last.loadLoss === undefined && !last.flags.includes('no-cut-out')) return false;
  return atMs - last.stoppedMs < (protectorRestartS + PROTECTOR_MARGIN_S) * 1000;
}

/** Did a protector end this run within a minute of running dry, and does it still do so in time? */
export function isEndedByProtector(scene: Scene, cycle: Cycle): boolean {
  const { protectorRestartS } = scene.pump.card;
  if (protectorRestartS === undefined || haveRestsGrown(scene, protectorRestartS)) return false;
  return (cycle.ranS - (cycle.loadLoss?.atS ?? 0)) * 1000 <= MAX_DRY_BY_DESIGN_MS;
}

function haveRestsGrown({ pump: { cycles } }: Scene, restartS: number): boolean {
  const rests = cycles.flatMap(({ restedS }, at) =>
    restedS !== undefined && cycles[at - 1]?.loadLoss !== undefined ? [restedS] : [],
  );
  const last = rests.slice(-MIN_GROWN_RESTS);
  return last.length === MIN_GROWN_RESTS && last.every((restS) => restS > GROWN_REST_RATIO * restartS);
}

/** The finding of a dry run as a note of what the protector does. */
export function byDesign(scene: Scene, found: Active): Active {
  if (found.reason !== 'dry-low-current' && found.reason !== 'dry-current-fell') return found;
  const { runLimitS, recoveryS } = found.figures;
  const times = scene.pump.cycles.filter(
    (cycle) => cycle.loadLoss !== undefined && isAfterReset(scene, cycle.startedMs),
  ).length;
  return {
    is: 'active',
    sinceMs: found.sinceMs,
    priority: 'note',
    reason: 'dry-ended-by-protector',
    figures: {
      times: Math.max(1, times),
      ...(runLimitS !== undefined && { runLimitS }),
      ...(recoveryS !== undefined && { recoveryS }),
    },
    evidence: { ...found.evidence, ...FORM_EVIDENCE['ended-by-protector'] },
    causes: found.causes,
  };
}
