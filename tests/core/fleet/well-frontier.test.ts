import { expect, it } from 'vitest';
import { newFleet, type Fleet } from '../../../src/core/fleet/fleet.ts';
import { newFleetNode } from '../../../src/core/fleet/nodes.ts';
import { addDefaultWell } from '../../../src/core/fleet/routing.ts';
import { askWellsOfNode, frontierOf, wellDueMs } from '../../../src/core/fleet/well-frontier.ts';
import { addInput, advancePipeline, type WellPipeline } from '../../../src/core/fleet/well-pipeline.ts';
import { addPack } from '../../../src/core/readings/inbox.ts';
import { newNode, receivePack } from '../../../src/core/readings/node.ts';
import { NOON, pack } from '../../support/packs.ts';

const S = 1000;

/**
 * The well of a node whose packs of ten seconds came, the last one at `heardS`; passed on as far as
 * it could be then.
 */
function wellOf({ seqs, heardS }: { seqs: readonly number[]; heardS: number }): {
  fleet: Fleet;
  pipeline: WellPipeline;
} {
  const fleet = newFleet();
  const state = newNode('barn');
  fleet.nodes.set('barn', newFleetNode(state, true));
  const pipeline = addDefaultWell(fleet, 'barn');
  for (const seq of seqs) {
    const receipt = receivePack(
      state,
      pack({ boot: 1, seq, fromMs: NOON + seq * 10 * S }),
      NOON + heardS * S,
    );
    if (receipt.is !== 'duplicate') addPack(pipeline.inbox, 'barn', receipt.placed, fleet.readTable);
  }
  advancePipeline(pipeline, frontierOf(fleet, pipeline, NOON + heardS * S), () => undefined);
  return { fleet, pipeline };
}

it.each([
  ['a node that is waited for', [1, 2, 3, 4], 50],
  ['a pack that is missing', [1, 2, 4], 50],
  ['packs that came late', [1, 2, 3, 4], 300],
  ['readings ahead of our clock', [1, 2, 3, 40], 60],
] as const)('wellDueMs is the first moment at which asking brings a well further: %s', (_, seqs, heardS) => {
  const { fleet, pipeline } = wellOf({ seqs, heardS });
  const dueS = (wellDueMs(fleet, pipeline, NOON + heardS * S) - NOON) / S;
  const { nextMinuteMs } = pipeline.state;
  const waiting = pipeline.inbox.queues.some(({ n }) => n > 0);
  expect(Math.ceil(dueS)).toBeGreaterThan(heardS);
  for (let s = heardS; s < Math.ceil(dueS); s++) {
    advancePipeline(pipeline, frontierOf(fleet, pipeline, NOON + s * S), () => undefined);
    expect(pipeline.state.nextMinuteMs).toBe(nextMinuteMs);
  }
  advancePipeline(pipeline, frontierOf(fleet, pipeline, NOON + Math.ceil(dueS) * S), () => undefined);
  expect(pipeline.state.nextMinuteMs > nextMinuteMs || (waiting && pipeline.inbox.queues[0]!.n === 0)).toBe(
    true,
  );
});

it('wellDueMs of a well with nothing before it is never, and of an act its time', () => {
  const fleet = newFleet();
  const pipeline = addDefaultWell(fleet, 'mill');
  expect(wellDueMs(fleet, pipeline, NOON)).toBe(Number.POSITIVE_INFINITY);
  addInput(pipeline, { atMs: NOON + 5 * S, act: { kind: 'tick' } });
  expect(wellDueMs(fleet, pipeline, NOON)).toBe(NOON + 5 * S);
  pipeline.fault = 'a fault of our own';
  expect(wellDueMs(fleet, pipeline, NOON)).toBe(Number.POSITIVE_INFINITY);
});

it('askWellsOfNode has every well of the node asked anew', () => {
  const fleet = newFleet();
  const [barn, mill] = [addDefaultWell(fleet, 'barn'), addDefaultWell(fleet, 'mill')];
  barn.dueMs = mill.dueMs = NOON;
  askWellsOfNode(fleet, 'barn');
  expect([barn.dueMs, mill.dueMs]).toEqual([Number.NEGATIVE_INFINITY, NOON]);
});
