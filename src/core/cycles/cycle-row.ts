/** A cycle as it is kept, shown and handed over: its line, and the shape of its run. */
import type { CycleEvent } from '../../../shared/api/events.ts';

/** A row of cycles, with what only the store and the pages need. */
export interface CycleRow {
  event: CycleEvent;
  startedMs: number;
  stoppedMs: number;
  shape?: { everyS: number; amps: (number | null)[]; kpa: (number | null)[] };
}
