/** What time alone brings: saves, acknowledgements, reruns; and when the next thing is due. */
import { expect, it } from 'vitest';
import { ackDueMs, takeDueAcks } from '../../../src/core/fleet/acks.ts';
import { approveNode } from '../../../src/core/fleet/approve-node.ts';
import type { FleetEffect } from '../../../src/core/fleet/effects.ts';
import { newFleet, type Fleet } from '../../../src/core/fleet/fleet.ts';
import { handle } from '../../../src/core/fleet/handle.ts';
import { beginRerun, dueReruns, rerunDueMs, runKept } from '../../../src/core/fleet/rerun.ts';
import { emitDueSaves, saveDueMs } from '../../../src/core/fleet/saves.ts';
import { addSpokenFor } from '../../../src/core/fleet/spoken-for.ts';
import { advanceDueWells, nextWakeMs } from '../../../src/core/fleet/wake.ts';
import { addDefaultWell } from '../../../src/core/fleet/routing.ts';
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { hello, NOON, pack } from '../../support/packs.ts';
import { fleetReasonText } from '../../../src/core/fleet/reason-text.ts';

const S = 1000;

function heard(fleet: Fleet): void {
  const message = { is: 'pack', pack: pack({ boot: 1, seq: 1 }) } as const;
  handle(fleet, { is: 'message', message }, NOON + 3 * S);
}

it('an acknowledgement is due once a second at most, and only where somebody is to hear it', () => {
  const fleet = newFleet({ acknowledges: true });
  heard(fleet);
  const entry = fleet.nodes.get('barn')!;
  expect(takeDueAcks(fleet, NOON + 3 * S)).toEqual([{ node: 'barn', ack: { boot: 1, seq: 1 } }]);
  expect(ackDueMs(entry)).toBe(Number.POSITIVE_INFINITY);
  heard(fleet);
  expect(takeDueAcks(fleet, NOON + 4 * S - 1)).toEqual([]);
  expect(ackDueMs(entry)).toBe(NOON + 4 * S);
  expect(takeDueAcks(fleet, NOON + 4 * S)).toHaveLength(1);
  const listening = newFleet();
  heard(listening);
  expect(takeDueAcks(listening, NOON + 4 * S)).toEqual([]);
});

it('a node that waits for approval is told to wait', () => {
  const fleet = newFleet({ acknowledges: true, approveAll: false });
  heard(fleet);
  expect(takeDueAcks(fleet, NOON + 3 * S)).toEqual([{ node: 'barn', ack: { wait: true } }]);
  approveNode(fleet, 'barn', NOON + 4 * S, () => undefined);
  expect(ackDueMs(fleet.nodes.get('barn')!)).toBe(NOON + 4 * S);
});

it('names that a gateway speaks for count by its credential, or by its approval', () => {
  const fleet = newFleet();
  heard(fleet);
  const entry = fleet.nodes.get('barn')!;
  const speaking = hello({ speaksFor: ['mill', 'shed'] });
  const ignored = addSpokenFor(fleet, entry, speaking, { given: ['mill'], nowMs: NOON }, () => undefined);
  expect(ignored && fleetReasonText(ignored)).toBe(
    'Node barn speaks for names that are ignored, shed: its credential does not cover them.',
  );
  expect([...fleet.nodes.keys()]).toEqual(['barn', 'mill']);
  expect(entry.ignored).toMatchObject({ names: 1, lastMs: NOON });
});

it('saves are due every ten minutes, and share a second', () => {
  const fleet = newFleet();
  const wells = Array.from({ length: 25 }, (_, at) => addDefaultWell(fleet, `well-${at}`));
  for (const pipeline of wells) pipeline.unsaved = true;
  expect(saveDueMs(wells[0]!)).toBe(10 * MINUTE_MS);
  const savedAt = (nowMs: number): number => {
    const effects: FleetEffect[] = [];
    emitDueSaves(fleet, nowMs, (effect) => effects.push(effect));
    for (const effect of effects) if (effect.is === 'save-well') effect.pipeline.unsaved = false;
    return effects.length;
  };
  // Twenty at once: packing the state of each takes time.
  expect([savedAt(NOON), savedAt(NOON + S - 1), savedAt(NOON + S), savedAt(NOON + 2 * S)]).toEqual([
    20, 0, 5, 0,
  ]);
  wells[0]!.unsaved = true;
  wells[0]!.fault = 'a fault of our own';
  expect(saveDueMs(wells[0]!)).toBe(Number.POSITIVE_INFINITY);
});

it('a rerun is due a minute after the one before', () => {
  const pipeline = addDefaultWell(newFleet(), 'barn');
  pipeline.reranAtMs = NOON;
  expect(rerunDueMs(pipeline)).toBe(Number.POSITIVE_INFINITY);
  pipeline.rerunFromMs = NOON;
  expect(rerunDueMs(pipeline)).toBe(NOON + MINUTE_MS);
});

it('nextWakeMs is the earliest of them; before it only wells that something came for are asked', () => {
  const fleet = newFleet();
  const [barn, mill] = [addDefaultWell(fleet, 'barn'), addDefaultWell(fleet, 'mill')];
  fleet.newsDueMs = Number.POSITIVE_INFINITY;
  barn.dueMs = NOON + 2 * S;
  mill.dueMs = NOON + S;
  expect(nextWakeMs(fleet)).toBe(NOON + S);
  fleet.newsDueMs = NOON;
  // News is made after its time.
  expect(nextWakeMs(fleet)).toBe(NOON + 1);
  fleet.wakeAtMs = NOON + S;
  const advancedAt = (nowMs: number): string[] => {
    const wells: string[] = [];
    advanceDueWells(fleet, nowMs, (effect) => effect.is === 'advanced' && wells.push(effect.well));
    return wells;
  };
  fleet.dirtyWells.add(barn);
  expect(advancedAt(NOON)).toEqual(['barn']);
  expect(advancedAt(NOON)).toEqual([]);
  expect(advancedAt(NOON + S)).toEqual(['mill']);
});

it('a well that is run again goes on from what is kept, and its derived rows come anew', () => {
  const fleet = newFleet();
  heard(fleet);
  handle(fleet, { is: 'time' }, NOON + 10 * MINUTE_MS);
  const pipeline = fleet.pipelines.get('barn')!;
  pipeline.rerunFromMs = NOON;
  expect(dueReruns(fleet, NOON + 10 * MINUTE_MS)).toEqual([{ well: 'barn', fromMs: NOON }]);
  const again = beginRerun(fleet, { well: 'barn', inputs: [] }, NOON + 10 * MINUTE_MS);
  expect(again).toMatchObject({ sinceMs: 0, toMs: pipeline.advancedToMs });
  const times = Float64Array.from({ length: 60 }, (_, at) => NOON + at * S);
  const feed = { code: 0, sinceMs: 0, untilMs: Number.POSITIVE_INFINITY };
  runKept(again, [{ column: { times, values: new Float64Array(60) }, feed }], again.toMs);
  const effects = handle(fleet, { is: 'kept-readings', rerun: again }, NOON + 10 * MINUTE_MS);
  expect(effects).toEqual([
    { is: 'made-again', well: 'barn', sinceMs: 0 },
    { is: 'rerun-mark', well: 'barn', fromMs: null },
  ]);
  expect(fleet.pipelines.get('barn')).toBe(pipeline);
  expect(pipeline.state.channels[0]).toMatchObject({ lastMs: NOON + 59 * S });
  expect(dueReruns(fleet, NOON + 20 * MINUTE_MS)).toEqual([]);
});

it('a well that cannot be run again is stopped', () => {
  const fleet = newFleet();
  heard(fleet);
  const again = { ...beginRerun(fleet, { well: 'barn', inputs: [] }, NOON), fault: { error: 'odd' } };
  const effects = handle(fleet, { is: 'kept-readings', rerun: again }, NOON + MINUTE_MS);
  expect(effects[0]).toEqual({
    is: 'fault',
    why: { reason: 'well-stopped', figures: { well: 'barn', trace: 'odd' } },
  });
  expect(fleet.pipelines.get('barn')!.fault).toBe('odd');
});
