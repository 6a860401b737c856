/**
 * Feeds one well a whole stretch of readings and acts, cut into pieces at any times, with the
 * engine saved and loaded between any two pieces. Whatever the cuts, the same must come out.
 */
import { readAct } from '../../../src/core/domain/read-act.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import { deserializeWell, newWell, serializeWell, type Emitted } from '../../../src/core/well/engine.ts';
import { addColumn } from '../../../src/core/readings/inbox.ts';
import {
  addInput,
  newPipeline,
  advancePipeline,
  type WellPipeline,
} from '../../../src/core/fleet/well-pipeline.ts';
import { actsOf, measure, PANEL, PUMP_HOUSE, type Plan } from './scenario.ts';

/** Channel codes of `current` and `pressure` (src/core/domain/channels.ts). */
const CODES = { current: 0, pressure: 3 } as const;

/**
 * What the well of two nodes says of a plan, its line passed on to each of `cuts` in turn, and
 * saved and loaded at those of `saves`.
 */
export function feedInChunks(plan: Plan, cuts: readonly number[], saves: (cut: number) => boolean): string[] {
  const pipeline = newPipeline('mill', newWell(defaultCardForNode('mill')));
  offerAll(pipeline, plan);
  const events: string[] = [];
  const emit = ({ event, orderMs }: Emitted): void => void events.push(JSON.stringify([orderMs, event]));
  for (const [index, cutMs] of cuts.entries()) {
    advancePipeline(pipeline, cutMs, emit);
    if (saves(index)) pipeline.state = deserializeWell(serializeWell(pipeline.state));
  }
  return events;
}

function offerAll(pipeline: WellPipeline, plan: Plan): void {
  for (const { node, channel, times, values } of measure(plan)) {
    if (node !== PANEL && node !== PUMP_HOUSE) continue;
    const code = channel === 'current' ? CODES.current : CODES.pressure;
    addColumn(
      pipeline.inbox,
      { times: Float64Array.from(times), values: Float64Array.from(values) },
      { code, sinceMs: 0, untilMs: Number.POSITIVE_INFINITY },
      false,
    );
  }
  for (const { atMs, act } of actsOf(plan)) {
    const read = readAct(act);
    if ('problem' in read) throw new Error(read.problem);
    if (!('well' in read.act) || read.act.well === 'mill') addInput(pipeline, { atMs, act: read.act });
  }
}
