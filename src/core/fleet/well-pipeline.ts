/**
 * One well of the fleet: its engine, the readings and acts that wait for their turn, and how far it
 * has come. The engine is passed on only as far as all of the well's nodes have spoken
 * (src/core/readings/frontier.ts); what comes later than that marks the place to run again from.
 */
import type { Emit } from '../well/emit.ts';
import { advance, advanceTo, applyInput, type WellState } from '../well/engine.ts';
import type { Segment, TimedInput } from '../well/input.ts';
import { drain, newInbox, newSegment, type Inbox } from '../readings/inbox.ts';

export interface WellPipeline {
  well: string;
  state: WellState;
  inbox: Inbox;
  /** Acts and news not yet passed, by their time. */
  pendingInputs: TimedInput[];
  /** All inputs up to and including this time were passed. */
  advancedToMs: number;
  /** Readings came for a time already passed: run again from the earliest. */
  rerunFromMs?: number;
  /** Nothing happens in it by time alone before this; -Infinity where that is to be worked out. */
  dueMs: number;
  /** By our clock: the last such run, and the last save. */
  reranAtMs: number;
  savedAtMs: number;
  /** State moved since it was saved. */
  unsaved: boolean;
  /** A fault of our own stopped this well; the others go on. */
  fault?: string;
}

/** One stretch serves all wells in turn: nothing keeps a hold of it. */
const SEGMENT: Segment = newSegment(4096);

export function newPipeline(well: string, state: WellState): WellPipeline {
  return {
    well,
    state,
    inbox: newInbox(),
    pendingInputs: [],
    advancedToMs: -1,
    dueMs: Number.NEGATIVE_INFINITY,
    reranAtMs: 0,
    savedAtMs: 0,
    unsaved: false,
  };
}

/**
 * An act or news takes its place among the inputs; never before what was already passed. Returns it
 * with the time that it has.
 */
export function addInput(pipeline: WellPipeline, input: TimedInput): TimedInput {
  const placed = input.atMs > pipeline.advancedToMs ? input : { ...input, atMs: pipeline.advancedToMs + 1 };
  let at = pipeline.pendingInputs.length;
  while (at > 0 && pipeline.pendingInputs[at - 1]!.atMs > placed.atMs) at--;
  pipeline.pendingInputs.splice(at, 0, placed);
  pipeline.dueMs = Number.NEGATIVE_INFINITY;
  return placed;
}

/**
 * Passes all inputs up to and including `toMs`: at one moment the minute first, then acts, then
 * readings.
 */
export function advancePipeline(pipeline: WellPipeline, toMs: number, emit: Emit): void {
  if (toMs <= pipeline.advancedToMs) return;
  while (pipeline.pendingInputs.length > 0 && pipeline.pendingInputs[0]!.atMs <= toMs) {
    const input = pipeline.pendingInputs.shift()!;
    advanceReadings(pipeline, input.atMs - 1, emit);
    applyInput(pipeline.state, input, emit);
  }
  advanceReadings(pipeline, toMs, emit);
  advanceTo(pipeline.state, toMs, emit);
  pipeline.advancedToMs = toMs;
  pipeline.unsaved = true;
}

function advanceReadings(pipeline: WellPipeline, toMs: number, emit: Emit): void {
  do {
    drain(pipeline.inbox, toMs, SEGMENT);
    advance(pipeline.state, SEGMENT, emit);
  } while (SEGMENT.n === SEGMENT.timeMs.length);
}
