/**
 * The engine of a well that was handed over to us. It begins shortly before now with everything
 * that people had done by then in force: card, calibrations, an open visit. The years before were
 * watched elsewhere; passing through their minutes again without readings would say nothing.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import { readAct } from '../../core/domain/read-act.ts';
import { defaultCardForNode } from '../../core/domain/read-card.ts';
import { newWell, applyInput } from '../../core/well/engine.ts';
import type { ActRow } from '../../store/store.ts';
import { serializeState } from '../live/save.ts';

/**
 * Readings that a node still held when the well changed hands come within the settling time, and a
 * day.
 */
const START_BEFORE_MS = 8 * DAY_MS;

export interface StartState {
  atMs: number;
  state: Uint8Array;
}

/** `acts` in order of their times. */
export function startState(well: string, acts: readonly ActRow[], nowMs: number): StartState {
  const atMs = nowMs - START_BEFORE_MS;
  const state = newWell(defaultCardForNode(well));
  for (const row of acts) {
    if (row.atMs > atMs) break;
    const read = readAct(row.body);
    if ('act' in read)
      applyInput(
        state,
        { atMs, act: read.act, ...(row.by !== undefined && { by: row.by }) },
        () => undefined,
      );
  }
  return { atMs, state: serializeState(state) };
}
