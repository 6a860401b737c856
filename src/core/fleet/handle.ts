/**
 * The fleet's one entrance: an input and our time go in, what is to be kept, told and counted comes
 * out. The live server and `replay` drive it; clock, timer, store and commit are theirs.
 */
import { handleAct, type ActInput } from './handle-act.ts';
import { handleMessage, type MessageInput } from './handle-message.ts';
import { advanceWell } from './advance-well.ts';
import { approveNode } from './approve-node.ts';
import type { EmitEffect, FleetEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { dispatchNews } from './node-news.ts';
import { finishRerun, type Rerun } from './rerun.ts';
import { advanceDueWells } from './wake.ts';

export type FleetInput =
  | ({ is: 'message' } & MessageInput)
  | ({ is: 'act' } & ActInput)
  | { is: 'approval'; node: string }
  /** What came before is complete: wells are passed on as far as their nodes have spoken. */
  | { is: 'time' }
  /** What was kept of a well that is run again: all that `dueReruns` asked for. */
  | { is: 'kept-readings'; rerun: Rerun }
  /** Nothing that is still to come in a recording can change what lies up to here. */
  | { is: 'settled'; toMs: number };

/** Changes the fleet in place. `nowMs` is when the input came, by our clock. */
export function handle(fleet: Fleet, input: FleetInput, nowMs: number): FleetEffect[] {
  const effects: FleetEffect[] = [];
  const emit: EmitEffect = (effect) => void effects.push(effect);
  dispatchNews(fleet, judgedToMs(input, nowMs), emit);
  switch (input.is) {
    case 'message':
      handleMessage(fleet, input, nowMs, emit);
      break;
    case 'act':
      handleAct(fleet, input, nowMs, emit);
      break;
    case 'approval':
      approveNode(fleet, input.node, nowMs, emit);
      break;
    case 'time':
      if (!fleet.rules.runsOnce) advanceDueWells(fleet, nowMs, emit);
      break;
    case 'kept-readings':
      finishRerun(fleet, input.rerun, nowMs, emit);
      break;
    case 'settled':
      for (const pipeline of fleet.pipelines.values())
        advanceWell(fleet, pipeline, { toMs: input.toMs, nowMs: input.toMs }, emit);
      break;
    default:
      input satisfies never;
  }
  return effects;
}

/** Our own absence is not news: what seems silent since it began is judged only after it. */
function judgedToMs(input: FleetInput, nowMs: number): number {
  return input.is === 'act' && input.act.kind === 'server-away' ? Math.min(input.act.fromMs, nowMs) : nowMs;
}
