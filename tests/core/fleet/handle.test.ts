/** The fleet's one entrance: what each input asks of whoever holds the fleet. */
import { describe, expect, it } from 'vitest';
import type { Message } from '../../../src/core/decode/messages.ts';
import type { FleetEffect } from '../../../src/core/fleet/effects.ts';
import { newFleet, type Fleet, type FleetRules } from '../../../src/core/fleet/fleet.ts';
import { handle } from '../../../src/core/fleet/handle.ts';
import type { ActInput } from '../../../src/core/fleet/handle-act.ts';
import type { MessageInput } from '../../../src/core/fleet/handle-message.ts';
import { getOrCreateNode } from '../../../src/core/fleet/nodes.ts';
import { SETTLE_MS } from '../../../src/core/fleet/settling.ts';
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { hello, NOON, pack, type PackSpec } from '../../support/packs.ts';

const S = 1000;

function send(
  fleet: Fleet,
  message: Message,
  nowMs = NOON + MINUTE_MS,
  more: Partial<MessageInput> = {},
): FleetEffect[] {
  return handle(fleet, { is: 'message', message, ...more }, nowMs);
}

const packOf = (spec: PackSpec): Message => ({ is: 'pack', pack: pack({ boot: 1, ...spec }) });
const act = (fleet: Fleet, written: ActInput['act'], nowMs = NOON + MINUTE_MS): FleetEffect[] =>
  handle(fleet, { is: 'act', act: written }, nowMs);
const namesOf = (effects: readonly FleetEffect[]): string[] => effects.map(({ is }) => is);

describe('a pack', () => {
  it('of a node that no card names makes a well, and comes once', () => {
    const fleet = newFleet();
    const first = send(fleet, packOf({ seq: 1 }));
    expect(namesOf(first)).toEqual(['node-changed', 'default-well', 'pack']);
    expect([...fleet.dirtyWells].map(({ well }) => well)).toEqual(['barn']);
    expect(namesOf(send(fleet, packOf({ seq: 1 })))).toEqual(['duplicate']);
  });

  it('with late readings marks its well to be run again, from the earliest', () => {
    const fleet = newFleet();
    send(fleet, packOf({ seq: 1 }));
    handle(fleet, { is: 'time' }, NOON + 10 * MINUTE_MS);
    const late = (fromMs: number, seq: number, boot = 1): FleetEffect[] =>
      send(fleet, packOf({ boot, seq, fromMs }), NOON + 10 * MINUTE_MS);
    expect(late(NOON + MINUTE_MS, 2)).toMatchObject([
      { is: 'pack' },
      { is: 'rerun-mark', well: 'barn', fromMs: NOON + MINUTE_MS },
    ]);
    expect(namesOf(late(NOON + 2 * MINUTE_MS, 3))).toEqual(['pack']);
    expect(namesOf(late(NOON - SETTLE_MS, 1, 2))).toEqual(['pack', 'too-late']);
  });

  it('of a recording is too late by its arrival alone', () => {
    const fleet = newFleet({ runsOnce: true });
    const nowMs = NOON + SETTLE_MS;
    expect(namesOf(send(fleet, packOf({ seq: 1, fromMs: NOON + S }), nowMs))).toEqual([
      'node-changed',
      'pack',
    ]);
    expect(namesOf(send(fleet, packOf({ seq: 2, fromMs: NOON - S }), nowMs))).toEqual(['pack', 'too-late']);
  });
});

describe('a node', () => {
  it('is a well with its first message; in a recording with its first pack', () => {
    const wells = (rules: Partial<FleetRules>): [string[], string[]] => {
      const fleet = newFleet(rules);
      send(fleet, { is: 'hello', hello: hello({}), retained: false });
      const before = [...fleet.pipelines.keys()];
      send(fleet, packOf({ seq: 1 }));
      return [before, [...fleet.pipelines.keys()]];
    };
    expect(wells({})).toEqual([['barn'], ['barn']]);
    expect(wells({ runsOnce: true })).toEqual([[], ['barn']]);
  });

  it('that is not approved has its packs refused, one an hour kept for a look, until it is', () => {
    const fleet = newFleet({ approveAll: false });
    const atMs = NOON + MINUTE_MS;
    const refusedAt = (nowMs: number): unknown => send(fleet, packOf({ seq: 1 }), nowMs).at(-1);
    expect(refusedAt(atMs)).toMatchObject({ refusal: { refused: 'not-let-in' }, countOnly: false });
    expect(refusedAt(atMs + S)).toMatchObject({ countOnly: true });
    expect(refusedAt(atMs + HOUR_MS)).toMatchObject({ countOnly: false });
    expect(fleet.pipelines.size).toBe(0);
    const approved = handle(fleet, { is: 'approval', node: 'barn' }, atMs + HOUR_MS);
    expect(namesOf(approved)).toEqual(['default-well', 'node-changed']);
    expect(send(fleet, packOf({ seq: 1 }), atMs + HOUR_MS + S).at(-1)).toMatchObject({ is: 'pack' });
    expect(handle(fleet, { is: 'approval', node: 'mill' }, atMs)).toEqual([
      { is: 'rejected', why: { reason: 'unknown-node', figures: { node: 'mill' } } },
    ]);
  });

  it('beyond the ceiling is refused, also one that another speaks for', () => {
    const fleet = newFleet({ ceiling: { nodes: 1, wells: 1 } });
    const speaking: Message = { is: 'hello', hello: hello({ speaksFor: ['mill'] }), retained: false };
    expect(send(fleet, speaking, NOON, { given: ['mill'] }).at(-1)).toMatchObject({
      is: 'ignored-names',
      why: { reason: 'names-ignored', figures: { why: { of: 'nodes', max: 1, known: 1 } } },
    });
    expect(send(fleet, packOf({ node: 'mill', seq: 1 }))).toMatchObject([
      { is: 'refused', refusal: { refused: 'too-many-nodes', node: 'mill' } },
    ]);
    expect([...fleet.nodes.keys()]).toEqual(['barn']);
  });

  it('is known once', () => {
    const fleet = newFleet();
    const entry = getOrCreateNode(fleet, 'barn', () => undefined);
    expect(getOrCreateNode(fleet, 'barn', () => expect.unreachable())).toBe(entry);
  });
});

describe('an act', () => {
  it('waits among the inputs of its well, never before what that has passed', () => {
    const fleet = newFleet();
    send(fleet, packOf({ seq: 1 }));
    handle(fleet, { is: 'time' }, NOON + 10 * MINUTE_MS);
    const { advancedToMs } = fleet.pipelines.get('barn')!;
    const opened = { kind: 'visit-opened', well: 'barn' } as const;
    expect(act(fleet, opened, NOON)).toEqual([{ is: 'accepted', act: opened, atMs: advancedToMs + 1 }]);
    expect(fleet.pipelines.get('barn')!.pendingInputs).toEqual([{ act: opened, atMs: advancedToMs + 1 }]);
  });

  it('for a well that nobody knows is rejected', () => {
    expect(act(newFleet(), { kind: 'visit-opened', well: 'shed' })).toEqual([
      { is: 'rejected', why: { reason: 'unknown-well', figures: { act: 'visit-opened', well: 'shed' } } },
    ]);
  });

  it('that only has time go on begins no well', () => {
    const fleet = newFleet();
    send(fleet, { is: 'hello', hello: hello({}), retained: false });
    expect(namesOf(act(fleet, { kind: 'tick' }))).toEqual(['accepted']);
    expect(fleet.pipelines.get('barn')!.pendingInputs).toEqual([]);
  });

  it.each([{}, { runsOnce: true }])(
    'acknowledges the alarm of a site, whose name is no well’s: %o',
    (rules) => {
      const fleet = newFleet(rules);
      for (const node of ['barn', 'mill']) {
        send(fleet, packOf({ node, seq: 1 }), NOON);
        act(fleet, { kind: 'card-changed', card: { ...fleet.cards.get(node)!, site: 'farm' } }, NOON);
      }
      const seen = { kind: 'acknowledged', well: 'farm', alarm: 'site-silent' } as const;
      expect(namesOf(act(fleet, seen, NOON + S))).toEqual(['rejected']);
      const silent = handle(fleet, { is: 'time' }, NOON + DAY_MS);
      expect(silent.find(({ is }) => is === 'site-alarm')).toMatchObject({ event: { site: 'farm' } });
      expect(act(fleet, seen, NOON + DAY_MS)).toMatchObject([
        { is: 'accepted' },
        { is: 'alarm', row: { site: 'farm', state: 'acknowledged' } },
      ]);
    },
  );

  it('that the server was away excuses silence meanwhile', () => {
    const fleet = newFleet({ runsOnce: true });
    send(fleet, packOf({ seq: 1 }), NOON);
    const away = { kind: 'server-away', fromMs: NOON + S } as const;
    expect(namesOf(act(fleet, away, NOON + DAY_MS))).toEqual(['accepted']);
    expect(namesOf(handle(fleet, { is: 'time' }, NOON + DAY_MS + HOUR_MS + 1))).toContain('news');
  });
});

it('wells of a recording are passed on as far as it has settled, and not by time alone', () => {
  const fleet = newFleet({ runsOnce: true });
  send(fleet, packOf({ seq: 1 }), NOON + S);
  handle(fleet, { is: 'time' }, NOON + HOUR_MS / 2);
  expect(fleet.pipelines.get('barn')!.advancedToMs).toBe(-1);
  handle(fleet, { is: 'settled', toMs: NOON + MINUTE_MS }, NOON + HOUR_MS / 2);
  expect(fleet.pipelines.get('barn')!.advancedToMs).toBe(NOON + MINUTE_MS);
});
