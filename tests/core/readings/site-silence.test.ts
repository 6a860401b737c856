/**
 * Rows of 'minute node says': s silent (since ten minutes before, or `s@since`), h heard; and what
 * the wells and the site are told.
 */
import { describe, expect, test } from 'vitest';
import type { NewsItem } from '../../../src/core/readings/news.ts';
import {
  newSite,
  advanceSite,
  handleSiteNews,
  nextSiteDueMs,
  type SiteNode,
  type SiteOutput,
  type SiteState,
} from '../../../src/core/readings/site-silence.ts';
import { NOON } from '../../support/packs.ts';

const MIN = 60_000;

function reported(
  text: string,
  nodes: SiteNode[],
  untilMin: number,
  between?: (site: SiteState) => SiteState,
): string[] {
  let site = newSite('home-farm');
  const says: SiteOutput = { news: [], site: [] };
  for (const word of text.split(', ')) {
    const [, at, node, what, since] = /^(\d+) (\w+) ([sh])(?:@(\d+))?$/.exec(word)!;
    const atMs = NOON + Number(at) * MIN;
    const sinceMs = NOON + Number(since ?? Number(at) - 10) * MIN;
    const item: NewsItem = {
      atMs,
      node: what === 's' ? { news: 'silent', node: node!, sinceMs } : { news: 'heard', node: node! },
    };
    handleSiteNews(site, nodes, item, says);
    site = between?.(site) ?? site;
  }
  advanceSite(site, nodes, NOON + untilMin * MIN, says);
  const rows = [
    ...says.news.map(({ atMs, node }): [number, string] => [
      atMs,
      `${node.node} ${node.news}${'withSite' in node && node.withSite ? ' with site' : ''}`,
    ]),
    ...says.site.map((change): [number, string] => [
      change.atMs,
      `SITE ${change.is}${change.is === 'raised' ? ` ${change.priority}` : ''}`,
    ]),
  ];
  return rows.sort((a, b) => a[0] - b[0]).map(([atMs, row]) => `${(atMs - NOON) / MIN} ${row}`);
}

const nodes = (text: string): SiteNode[] =>
  text
    .split(' ')
    .map((name) => ({ node: name.replace('!', ''), priority: name.endsWith('!') ? 'now' : 'soon' }));

describe('site-silent stands for half of a site, two or more', () => {
  test.each([
    ['one alone on its site is told at once', 'a', '20 a s', 30, ['20 a silent']],
    ['one of two is held back 5 min, then told', 'a b', '20 a s', 30, ['25 a silent']],
    ['heard again meanwhile: nothing', 'a b', '20 a s, 23 a h', 30, []],
    [
      'both within 5 min: the site',
      'a b',
      '20 a s, 22 b s',
      30,
      ['22 a silent with site', '22 b silent with site', '22 SITE raised soon'],
    ],
    [
      'with the highest priority among them',
      'a b!',
      '20 a s, 22 b s',
      30,
      ['22 a silent with site', '22 b silent with site', '22 SITE raised now'],
    ],
    [
      'two of four are half',
      'a b c d',
      '20 a s, 22 b s',
      30,
      ['22 a silent with site', '22 b silent with site', '22 SITE raised soon'],
    ],
    ['two of five are not', 'a b c d e', '20 a s, 22 b s', 30, ['25 a silent', '27 b silent']],
    ['that fell silent more than 5 min apart', 'a b', '20 a s, 27 b s', 40, ['25 a silent', '32 b silent']],
    [
      'that fell silent together though one is known later',
      'a b',
      '20 a s@10, 50 b s@12',
      60,
      ['25 a silent', '50 a silent with site', '50 b silent with site', '50 SITE raised soon'],
    ],
    [
      'one more of a silent site stands with it',
      'a b c d',
      '20 a s, 22 b s, 40 c s',
      50,
      ['22 a silent with site', '22 b silent with site', '22 SITE raised soon', '40 c silent with site'],
    ],
    [
      'fewer than half: the site is back, the rest are silent by themselves',
      'a b',
      '20 a s, 22 b s, 30 a h',
      40,
      [
        '22 a silent with site',
        '22 b silent with site',
        '22 SITE raised soon',
        '30 a heard',
        '30 b silent',
        '30 SITE cleared',
      ],
    ],
    ['told alone and heard again', 'a b', '20 a s, 40 a h', 50, ['25 a silent', '40 a heard']],
  ] as [string, string, string, number, string[]][])('%s', (_, site, text, until, rows) => {
    expect(reported(text, nodes(site), until).sort()).toEqual([...rows].sort());
    const saved = (s: SiteState): SiteState => {
      const again: SiteState = JSON.parse(JSON.stringify(s));
      return again;
    };
    expect(reported(text, nodes(site), until, saved).sort()).toEqual([...rows].sort());
  });
});

test('other news goes straight through', () => {
  const says: SiteOutput = { news: [], site: [] };
  const item: NewsItem = { atMs: NOON, node: { news: 'no-power', node: 'a' } };
  handleSiteNews(newSite('home-farm'), nodes('a b'), item, says);
  expect(says).toEqual({ news: [item], site: [] });
});

test('siteNextMs is when a held-back silence is told', () => {
  const site = newSite('home-farm');
  expect(nextSiteDueMs(site, nodes('a b'))).toBe(Number.POSITIVE_INFINITY);
  const item: NewsItem = { atMs: NOON, node: { news: 'silent', node: 'a', sinceMs: NOON - 10 * MIN } };
  handleSiteNews(site, nodes('a b'), item, { news: [], site: [] });
  expect(nextSiteDueMs(site, nodes('a b'))).toBe(NOON + 5 * MIN);
});

test('what is raised names those that fell silent, of how many, and since when', () => {
  const says: SiteOutput = { news: [], site: [] };
  const site = newSite('home-farm');
  for (const [node, min] of [
    ['b', 10],
    ['a', 11],
  ] as const) {
    const item: NewsItem = { atMs: NOON, node: { news: 'silent', node, sinceMs: NOON - min * MIN } };
    handleSiteNews(site, nodes('a b c d'), item, says);
  }
  expect(says.site).toEqual([
    {
      is: 'raised',
      site: 'home-farm',
      atMs: NOON,
      sinceMs: NOON - 11 * MIN,
      nodes: ['a', 'b'],
      nodeCount: 4,
      priority: 'soon',
    },
  ]);
});
