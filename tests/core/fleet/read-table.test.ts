/** Which node feeds which well, while cards come and go. */
import { describe, expect, it } from 'vitest';
import type { Card } from '../../../src/core/domain/card.ts';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import { feedsOf } from '../../../src/core/domain/sources.ts';
import { newFleet } from '../../../src/core/fleet/fleet.ts';
import { cardAt, withDefaultNode, wellsOf } from '../../../src/core/fleet/read-table.ts';
import {
  addDefaultWell,
  applyCard,
  pipelinesForNode,
  pipelinesOfAct,
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
