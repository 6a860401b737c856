/** Which node's channel feeds which channel of a well, and when. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Card } from '../../../src/core/domain/card.ts';
import { BASE_CHANNELS, channelCode, channelName } from '../../../src/core/domain/channels.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import {
  feedsOf,
  isSourceNode,
  nodesOf,
  readTableFromCards,
  sourceAt,
  sourcesOf,
} from '../../../src/core/domain/sources.ts';

const MARCH = Date.UTC(2026, 2, 1);

function cardOf(json: object): Card {
  const read = readCard(json);
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

/** "node:channel" of what feeds a channel of the well at a time. */
function fedBy(card: Card, channel: string, atMs: number): string[] {
  return sourcesOf(card)
    .filter(
      (source) => channelName(source.code) === channel && source.sinceMs <= atMs && atMs < source.untilMs,
    )
    .map((source) => `${source.node}:${source.nodeChannel}`);
}

const PLAIN = cardOf({ well: 'barn' });
const PANEL = cardOf({ well: 'upper', reads: { current: 'panel:p2/current', pressure: 'tank:pressure' } });
const REPLACED = cardOf({
  well: 'hill',
  reads: [
    { since: '2026-03-01T00:00:00Z', current: 'hill-two:current' },
    { since: '2026-04-01T00:00:00Z', current: 'hill-three:current' },
  ],
});
const TWO_PUMPS = cardOf({ well: 'yard', pumps: { p1: {}, p2: {} } });

describe('sourcesOf', () => {
  test.each<[string, Card, string, number, string[]]>([
    ['without rules the node of the well’s name', PLAIN, 'current', MARCH, ['barn:current']],
    ['and every channel of it', PLAIN, 'temperature', MARCH, ['barn:temperature']],
    ['a pump that the card has not is not read', PLAIN, 'p2/current', MARCH, []],
    ['a second pump of the card is', TWO_PUMPS, 'p2/current', MARCH, ['yard:p2/current']],
    ['a named channel from where the card says', PANEL, 'current', MARCH, ['panel:p2/current']],
    ['another named channel from another node', PANEL, 'pressure', MARCH, ['tank:pressure']],
    ['a channel that is not named from the own node', PANEL, 'voltage', MARCH, ['upper:voltage']],
    ['before the first rule the own node', REPLACED, 'current', MARCH - 1, ['hill:current']],
    ['from the first rule on the new node', REPLACED, 'current', MARCH, ['hill-two:current']],
    ['until the next rule', REPLACED, 'current', Date.UTC(2026, 3, 1) - 1, ['hill-two:current']],
    ['and then the next', REPLACED, 'current', Date.UTC(2026, 3, 1), ['hill-three:current']],
  ])('%s', (_name, card, channel, atMs, want) => {
    expect(fedBy(card, channel, atMs)).toEqual(want);
    const one = sourceAt(card, channelCode(channel)!, atMs);
    expect(one ? [`${one.node}:${one.nodeChannel}`] : []).toEqual(want);
  });

  test('at each moment every channel of every pump has one source', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(PLAIN, PANEL, REPLACED, TWO_PUMPS),
        fc.integer({ min: 0, max: Date.UTC(2030, 0) }),
        (card, atMs) => {
          const now = sourcesOf(card).filter((source) => source.sinceMs <= atMs && atMs < source.untilMs);
          expect(new Set(now.map((source) => source.code)).size).toBe(now.length);
          expect(now.length).toBe(card.pumps.length * BASE_CHANNELS.length);
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });
});

describe('nodesOf', () => {
  test.each<[string, Card, number, string[]]>([
    ['the own node alone, by its name', PLAIN, MARCH, ['barn (by name)']],
    ['named nodes first', PANEL, MARCH, ['panel', 'tank', 'upper (by name)']],
    ['only those of the time', REPLACED, MARCH - 1, ['hill (by name)']],
    ['after a replacement', REPLACED, MARCH, ['hill-two', 'hill (by name)']],
  ])('%s', (_name, card, atMs, want) => {
    expect(nodesOf(card, atMs).map(({ node, implicit }) => (implicit ? `${node} (by name)` : node))).toEqual(
      want,
    );
  });

  test('a well that names its own node counts it as named', () => {
    expect(nodesOf(cardOf({ well: 'a', reads: { current: 'a:current' } }), MARCH)).toEqual([
      { node: 'a', implicit: false },
    ]);
  });
});

describe('wellsReading', () => {
  const table = readTableFromCards([
    PLAIN,
    PANEL,
    REPLACED,
    cardOf({ well: 'lower', reads: { current: 'panel:current', pressure: 'tank:pressure' } }),
  ]);

  test('one pressure feeds two wells', () => {
    expect(feedsOf(table, 'tank', 'pressure').map(({ well, code }) => `${well} ${code}`)).toEqual([
      'upper 3',
      'lower 3',
    ]);
  });

  test('a prefix on the node is none on the well', () => {
    expect(feedsOf(table, 'panel', 'p2/current')).toEqual([
      { well: 'upper', code: 0, sinceMs: 0, untilMs: Number.POSITIVE_INFINITY },
    ]);
  });

  test('a replaced node feeds nothing afterwards', () => {
    expect(feedsOf(table, 'hill', 'current')).toMatchObject([{ untilMs: MARCH }]);
  });

  test('what nobody reads feeds nothing', () => {
    expect(feedsOf(table, 'panel', 'pressure')).toEqual([]);
    expect(feedsOf(table, 'stranger', 'current')).toEqual([]);
    expect([isSourceNode(table, 'panel'), isSourceNode(table, 'stranger')]).toEqual([true, false]);
  });
});
