/** Which node feeds which well, while cards come and go. */
import { assert, constantFrom, integer, record, array, option, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Card } from '../../../src/core/domain/card.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import { feedsOf, type Feed, type ReadTable } from '../../../src/core/domain/sources.ts';
import { newFleet } from '../../../src/core/fleet/fleet.ts';
import {
  addPeriod,
  cardAt,
  withDefaultNode,
  wellsOf,
  type Period,
  type Reads,
} from '../../../src/core/fleet/read-table.ts';
import {
  addDefaultWell,
  applyCard,
  pipelinesForNode,
  pipelinesOfAct,
  removeWell,
  sourcesOfWell,
} from '../../../src/core/fleet/routing.ts';

const HOUR = 3_600_000;
/** A well whose pressure a box of another name measures. */
const barn: Card = {
  ...defaultCardForNode('barn'),
  reads: [{ channel: 'pressure', node: 'pump-house', nodeChannel: 'pressure', sinceMs: 0 }],
};

describe('routing', () => {
  it('gives a node that no card names to the well of its own name', () => {
    const fleet = newFleet();
    addDefaultWell(fleet, 'barn');
    expect(pipelinesForNode(fleet, 'barn').map(({ well }) => well)).toEqual(['barn']);
    expect(pipelinesForNode(fleet, 'pump-house')).toEqual([]);
  });

  it('gives a node to the well whose card names it from then on, and keeps its past', () => {
    const fleet = newFleet();
    addDefaultWell(fleet, 'pump-house');
    expect(pipelinesForNode(fleet, 'pump-house')).toHaveLength(1);
    applyCard(fleet, barn, 5 * HOUR);
    expect(wellsOf(fleet.readTable, 'pump-house', 4 * HOUR)).toEqual(['pump-house']);
    expect(wellsOf(fleet.readTable, 'pump-house', 5 * HOUR)).toEqual(['barn']);
    expect(pipelinesForNode(fleet, 'pump-house').map(({ well }) => well)).toEqual(['pump-house', 'barn']);
    expect(sourcesOfWell(fleet, 'barn').some(({ node }) => node === 'pump-house')).toBe(true);
  });

  it('reads a pack by the card of its own time', () => {
    const fleet = newFleet();
    applyCard(fleet, { ...barn, site: 'north' }, HOUR);
    applyCard(fleet, { ...barn, site: 'south' }, 2 * HOUR);
    expect(cardAt(fleet.periods, 'barn', HOUR - 1)?.site).toBeUndefined();
    expect(cardAt(fleet.periods, 'barn', 2 * HOUR - 1)?.site).toBe('north');
    expect(cardAt(fleet.periods, 'barn', 2 * HOUR)?.site).toBe('south');
    expect(fleet.cards.get('barn')?.site).toBe('south');
    expect(feedsOf(fleet.readTable, 'pump-house', 'pressure').map(({ sinceMs }) => sinceMs)).toEqual([
      HOUR,
      2 * HOUR,
    ]);
  });

  it('gives a calibration to the wells that read from its node, an act of a well to that well, others to all', () => {
    const fleet = newFleet();
    addDefaultWell(fleet, 'mill');
    applyCard(fleet, barn, HOUR);
    const wells = (act: Parameters<typeof pipelinesOfAct>[1]): string[] =>
      pipelinesOfAct(fleet, act).map(({ well }) => well);
    expect(wells({ kind: 'calibrated', node: 'pump-house', channel: 'pressure', points: [] })).toEqual([
      'barn',
    ]);
    expect(wells({ kind: 'visit-opened', well: 'mill' })).toEqual(['mill']);
    expect(wells({ kind: 'visit-opened', well: 'nobody' })).toEqual([]);
    expect(wells({ kind: 'server-away', fromMs: 0 })).toEqual(['mill', 'barn']);
  });
});

/** Each feed as a line, without the order of nodes and wells. */
function linesOf(table: ReadTable): string[] {
  const line = (node: string, channel: string, { well, code, sinceMs, untilMs }: Feed): string =>
    [node, channel, well, code, sinceMs, untilMs].join(' ');
  return [...table]
    .flatMap(([node, channels]) =>
      [...channels].flatMap(([channel, feeds]) => feeds.map((feed) => line(node, channel, feed))),
    )
    .toSorted();
}

/** The table of these periods, made from nothing. */
function builtAnew(periods: Iterable<readonly Period[]>): ReadTable {
  const reads: Reads = { periods: new Map(), readTable: new Map() };
  for (const period of [...periods].flat()) addPeriod(reads, period);
  return reads.readTable;
}

describe('the table of who reads what', () => {
  const names = constantFrom('barn', 'mill', 'pump-house');
  const step = record({
    well: names,
    node: option(names, { nil: undefined }),
    atMs: integer({ min: -2, max: 6 }),
    ruleMs: integer({ min: 0, max: 6 }),
    do: constantFrom('card', 'card', 'node', 'forget'),
  });

  it('is, after cards in any order, what it would be if it were made from nothing', () => {
    assert(
      property(array(step, { maxLength: 12 }), (steps) => {
        const fleet = newFleet();
        for (const { well, node, atMs, ruleMs, do: what } of steps) {
          if (what === 'node' && !fleet.pipelines.has(well)) addDefaultWell(fleet, well);
          else if (what === 'forget') removeWell(fleet, well);
          else {
            const reads = node === undefined ? [] : [{ ...barn.reads[0]!, node, sinceMs: ruleMs }];
            applyCard(fleet, { ...defaultCardForNode(well), reads }, atMs);
          }
          // Asked at each step, so that nothing worked out before is left.
          for (const one of ['barn', 'mill', 'pump-house']) sourcesOfWell(fleet, one);
        }
        const anew = builtAnew(fleet.periods.values());
        expect(linesOf(fleet.readTable)).toEqual(linesOf(anew));
        expect([...fleet.readTable.keys()].toSorted()).toEqual([...anew.keys()].toSorted());
        for (const well of fleet.pipelines.keys()) {
          const sources = sourcesOfWell(fleet, well);
          const own = linesOf(anew).filter((line) => line.split(' ')[2] === well);
          expect(sources.length).toBe(own.length);
          for (const { node } of sources)
            expect(pipelinesForNode(fleet, node).map((pipeline) => pipeline.well)).toContain(well);
        }
      }),
    );
  });
});

describe('withDefaultNode', () => {
  it('reads what no rule names from the given node, and leaves the rules as they are', () => {
    const card = withDefaultNode(barn, 'box-7');
    const rule = (channel: string) => card.reads.filter((one) => one.channel === channel);
    expect(rule('pressure')).toEqual(barn.reads);
    expect(rule('current')).toEqual([
      { channel: 'current', node: 'box-7', nodeChannel: 'current', sinceMs: 0 },
    ]);
  });
});
