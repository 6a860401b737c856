/**
 * One well while it is live: its engine, the readings and acts that wait for their turn, and how far it has come. The engine is
 * passed on only as far as all of the well's nodes have spoken (src/readings/frontier.ts); what comes later than that marks the
 * place to run again from.
 */
import type { Emit } from '../../engine/emit.ts';
import { advance, passTo, take, type WellState } from '../../engine/engine.ts';
import type { Stretch, TimedInput } from '../../engine/input.ts';
import { drain, newInbox, newStretch, type Inbox } from '../../readings/merge.ts';

export interface Line {
  well: string;
  state: WellState;
  inbox: Inbox;
  /** Acts and news not yet passed, by their time. */
  waiting: TimedInput[];
  /** All inputs up to and including this time were passed. */
  passedMs: number;
  /** Readings came for a time already passed: run again from the earliest. */
  rerunFromMs?: number;
  /** By our clock: the last such run, and the last save. */
  reranAtMs: number;
  savedAtMs: number;
  /** State moved since it was saved. */
  unsaved: boolean;
  /** A fault of our own stopped this well; the others go on. */
  fault?: string;
}

/** One stretch serves all wells in turn: nothing keeps a hold of it. */
const STRETCH: Stretch = newStretch(4096);

export function newLine(well: string, state: WellState): Line {
  return {
    well,
    state,
    inbox: newInbox(),
    waiting: [],
    passedMs: -1,
    reranAtMs: 0,
    savedAtMs: 0,
    unsaved: false,
  };
}

/** An act or news takes its place among the inputs; never before what was already passed. */
export function addInput(line: Line, input: TimedInput): void {
  const placed = input.atMs > line.passedMs ? input : { ...input, atMs: line.passedMs + 1 };
  let at = line.waiting.length;
  while (at > 0 && line.waiting[at - 1]!.atMs > placed.atMs) at--;
  line.waiting.splice(at, 0, placed);
}

/** Passes all inputs up to and including `toMs`: at one moment the minute first, then acts, then readings. */
export function passLine(line: Line, toMs: number, emit: Emit): void {
  if (toMs <= line.passedMs) return;
  while (line.waiting.length > 0 && line.waiting[0]!.atMs <= toMs) {
    const input = line.waiting.shift()!;
    passReadings(line, input.atMs - 1, emit);
    take(line.state, input, emit);
  }
  passReadings(line, toMs, emit);
  passTo(line.state, toMs, emit);
  line.passedMs = toMs;
  line.unsaved = true;
}

function passReadings(line: Line, toMs: number, emit: Emit): void {
  do {
    drain(line.inbox, toMs, STRETCH);
    advance(line.state, STRETCH, emit);
  } while (STRETCH.n === STRETCH.timeMs.length);
}
