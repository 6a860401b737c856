/** What the fleet says, as lines that wait to be printed and as counts of the summary. */
import type { FleetEffect } from '../core/fleet/effects.ts';
import { handle, type FleetInput } from '../core/fleet/handle.ts';
import { fleetReasonText } from '../core/fleet/reason-text.ts';
import { enqueue } from './event-queue.ts';
import { increment, type Replay } from './state.ts';

/** Remarks about acts that are told in full; the rest are counted. */
const MAX_PROBLEMS = 10;

/** Our clock goes on to `nowMs`, and the fleet takes this. */
export function take(replay: Replay, input: FleetInput, nowMs: number): void {
  if (nowMs > replay.nowMs) replay.nowMs = nowMs;
  for (const effect of handle(replay, input, nowMs)) applyEffect(replay, effect, nowMs);
}

function applyEffect(replay: Replay, effect: FleetEffect, nowMs: number): void {
  const { counts, eventQueue } = replay;
  switch (effect.is) {
    case 'emitted':
      enqueue(eventQueue, effect.emitted.event, effect.emitted.orderMs);
      break;
    case 'site-alarm':
      enqueue(eventQueue, effect.event, effect.atMs);
      break;
    case 'fault':
      replay.faults.push(fleetReasonText(effect.why));
      break;
    case 'pack':
      counts.packs++;
      for (const column of effect.placed.columns) counts.readings += column.times.length;
      break;
    case 'duplicate':
      counts.duplicates++;
      break;
    case 'too-late':
      counts.tooLate++;
      break;
    case 'refused':
      increment(counts.refused, effect.refusal.refused);
      break;
    case 'rejected':
      addProblem(replay, nowMs, fleetReasonText(effect.why));
      break;
    // A recording is kept already, and its alarms are told to nobody.
    case 'accepted':
    case 'advanced':
    case 'alarm':
    case 'default-well':
    case 'ignored-names':
    case 'made-again':
    case 'news':
    case 'node-changed':
    case 'rerun-mark':
    case 'save-well':
    case 'site-changed':
      break;
    default:
      effect satisfies never;
  }
}

export function addProblem({ counts }: Replay, atMs: number, problem: string): void {
  counts.badActs++;
  if (counts.problems.length < MAX_PROBLEMS)
    counts.problems.push(`${new Date(atMs).toISOString()}: ${problem}`);
}
