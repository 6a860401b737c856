/** What is remembered of one pump between two readings, and what it sees of the well's pressure. */
import { newEdges, type Edges } from './edges.ts';
import { newLevels, type Levels } from './levels.ts';
import { isCoarse, newPace, type Pace } from './pace.ts';
import type { Run } from './run.ts';
import type { StartTrack } from './start.ts';
import type { Sampling, PressureBuffer } from './pressure-buffer.ts';

export interface PumpState {
  index: number;
  maxAmps?: number | undefined;
  pace: Pace;
  levels: Levels;
  edges: Edges;
  /** Last value of each line, A; -1 where it never spoke. */
  legAmps: number[];
  legMs: number[];
  /**
   * Readings since a start that is not believed yet; in a run, those of a line that showed rest
   * while the others were not yet read.
   */
  pending: [number, number, number][];
  run?: Run | undefined;
  /** Where pressure stood as the last run began, kPa. */
  lastStartKpa?: number | undefined;
  /** When the last run stopped; undefined before the first rest and across a gap. */
  restFromMs?: number | undefined;
  /** A start's record that came before its run was believed. */
  startRecord?: StartTrack | undefined;
  /**
   * The reading that ended a hole in the data while the pump rested: a run that begins with it may
   * be older.
   */
  gapEndMs?: number;
  /**
   * Readings of current are means over a span of this length that ends at their time; else 0, ms.
   */
  spanMs?: number;
  /** Of such means: the last one at rest, A. */
  restMeanAmps?: number | undefined;
  /**
   * Of such means: the one that the last reading of current showed to lie wholly within the run, A.
   */
  wholeMeanAmps?: number | undefined;
  /** Single odd readings that changed nothing. */
  spikes: number;
}

/** What the pump sees of the well's pressure. */
export interface PressureView {
  buffer: PressureBuffer;
  pace: Pace;
}

/** `hasDrive`: a drive sets its speed (control `variable-speed`). */
export function newPump(index: number, maxAmps: number | undefined, hasDrive = false): PumpState {
  return {
    index,
    maxAmps,
    pace: newPace(),
    levels: newLevels(maxAmps, hasDrive),
    edges: newEdges(),
    legAmps: [],
    legMs: [],
    pending: [],
    // Named from the start and never deleted: an object that keeps its shape is read several times
    // as fast.
    run: undefined,
    lastStartKpa: undefined,
    restFromMs: undefined,
    spanMs: 0,
    restMeanAmps: undefined,
    wholeMeanAmps: undefined,
    spikes: 0,
  };
}

export function isRunning(pump: PumpState): boolean {
  return pump.run !== undefined;
}

/** Readings of current are means over a span long enough to hold a start or a stop. */
export function readsMeans({ spanMs }: PumpState): boolean {
  return spanMs !== undefined && spanMs > 0;
}

export function samplingOf(pace: Pace): Sampling {
  if (pace.byException) return 'by-exception';
  return isCoarse(pace) ? 'coarse' : 'fine';
}
