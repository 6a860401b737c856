/**
 * News of nodes finds the wells that read from them, and time alone makes news only when
 * `newsDueMs` says so.
 */
import { describe, expect, it } from 'vitest';
import { defaultCardForNode } from '../../../src/core/domain/read-card.ts';
import type { FleetEffect } from '../../../src/core/fleet/effects.ts';
import { newFleet, type Fleet } from '../../../src/core/fleet/fleet.ts';
import { dispatchNews, excuseOutage, trackNews } from '../../../src/core/fleet/node-news.ts';
import { newFleetNode } from '../../../src/core/fleet/nodes.ts';
import { addWell } from '../../../src/core/fleet/routing.ts';
import { newNode, receivePresence } from '../../../src/core/readings/node.ts';

const NOON = Date.UTC(2026, 2, 2, 12);
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;

function fleetOf(nodes: readonly string[], site?: string): Fleet {
  const fleet = newFleet();
  for (const node of nodes) {
    addWell(fleet, { ...defaultCardForNode(node), ...(site !== undefined && { site }) });
    fleet.nodes.set(node, newFleetNode(newNode(node), true));
  }
  return fleet;
}

function hear(fleet: Fleet, node: string, atMs: number): void {
  const { state } = fleet.nodes.get(node)!;
  receivePresence(state, 'here', false, atMs);
  trackNews(fleet, state);
}

function newsAt(fleet: Fleet, toMs: number): FleetEffect[] {
  const effects: FleetEffect[] = [];
  dispatchNews(fleet, toMs, (effect) => effects.push(effect));
  return effects;
}

describe('dispatchNews', () => {
  it('has nothing before the silence is due, and everything right after it', () => {
    const fleet = fleetOf(['barn']);
    hear(fleet, 'barn', NOON);
    expect(newsAt(fleet, NOON)).toEqual([]);
    const dueMs = fleet.newsDueMs;
    // A node never heard before may be silent for an hour.
    expect(dueMs).toBe(NOON + HOUR);
    expect(newsAt(fleet, dueMs)).toEqual([]);
    const silent = { news: 'silent', node: 'barn', sinceMs: NOON };
    expect(newsAt(fleet, dueMs + 1)).toEqual([
      { is: 'node-changed', node: 'barn' },
      { is: 'news', well: 'barn', atMs: dueMs, node: silent },
    ]);
    expect(fleet.pipelines.get('barn')!.pendingInputs).toEqual([{ atMs: dueMs, node: silent }]);
    expect(fleet.newsDueMs).toBe(Number.POSITIVE_INFINITY);
  });

  it('hands a message’s own news over at once', () => {
    const fleet = fleetOf(['barn']);
    const { state } = fleet.nodes.get('barn')!;
    newsAt(fleet, NOON);
    receivePresence(state, 'no-power', false, NOON + 1);
    trackNews(fleet, state);
    expect(fleet.newsDueMs).toBe(Number.NEGATIVE_INFINITY);
    expect(newsAt(fleet, NOON + 1).at(-1)).toMatchObject({ is: 'news', node: { news: 'no-power' } });
  });

  it('waits for the others of a site before it tells one node’s silence', () => {
    const fleet = fleetOf(['barn', 'mill', 'shop'], 'north');
    for (const node of ['barn', 'mill', 'shop']) hear(fleet, node, NOON);
    hear(fleet, 'mill', NOON + 30 * MINUTE);
    hear(fleet, 'shop', NOON + 30 * MINUTE);
    const silent = newsAt(fleet, NOON + HOUR + 1);
    expect(silent.map(({ is }) => is)).toEqual(['node-changed', 'site-changed']);
    expect(fleet.newsDueMs).toBe(NOON + HOUR + 5 * MINUTE);
    expect(newsAt(fleet, fleet.newsDueMs + 1).map(({ is }) => is)).toEqual(['news', 'site-changed']);
  });

  it('tells of the site where half of it falls silent together', () => {
    const fleet = fleetOf(['barn', 'mill'], 'north');
    for (const node of ['barn', 'mill']) hear(fleet, node, NOON);
    const effects = newsAt(fleet, NOON + HOUR + 1);
    expect(effects.filter(({ is }) => is === 'site-alarm')).toMatchObject([
      { event: { alarm: 'site-silent', site: 'north', state: 'raised' } },
    ]);
    const published = effects.flatMap((effect) => (effect.is === 'news' ? [effect.node] : []));
    expect(published).toMatchObject([{ withSite: 'north' }, { withSite: 'north' }]);
  });

  it('never gives a well news of a time that it has passed', () => {
    const fleet = fleetOf(['barn']);
    hear(fleet, 'barn', NOON);
    fleet.pipelines.get('barn')!.advancedToMs = NOON + 2 * HOUR;
    expect(newsAt(fleet, NOON + 2 * HOUR).at(-1)).toMatchObject({ is: 'news', atMs: NOON + 2 * HOUR + 1 });
  });
});

describe('excuseOutage', () => {
  it('counts silence from our return', () => {
    const fleet = fleetOf(['barn']);
    hear(fleet, 'barn', NOON);
    excuseOutage(fleet, NOON + 1, NOON + 5 * HOUR);
    expect(newsAt(fleet, NOON + 5 * HOUR)).toEqual([]);
    expect(fleet.newsDueMs).toBe(NOON + 6 * HOUR);
  });
});
