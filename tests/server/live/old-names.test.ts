/** What an earlier version saved of nodes, sites and news is read under today's names. */
import { expect, test } from 'vitest';
import {
  renameSavedNews,
  renameSavedNode,
  renameSavedRow,
  renameSavedSite,
} from '../../../src/server/live/old-names.ts';

test('a node', () => {
  const up = { anchorMs: 1, edgeMs: 1, edgeUpMs: 1 };
  const node = {
    boots: [{ boot: 2, touchedMs: 5, up, wrong: { seq: 1 } }],
    began: [{ boot: 1, up }],
    packEveryMs: 10,
    hole: { fromSeq: 3, wholeToMs: 4, sinceMs: 5 },
    fullScale: { most: { current: 30 }, atMs: 6 },
    hearing: { heardMs: 7, turnMs: 8, turns: 9, gaps: [{ forMs: 1, endedMs: 2 }], everyMs: 3, holdsMs: 4 },
    news: [{ atMs: 1, node: { news: 'full-scale', node: 'barn', most: { current: 30 } } }],
  };
  renameSavedNode(node);
  const today = {
    boots: [{ boot: 2, lastActivityMs: 5, upClock: up, overruled: { seq: 1 } }],
    forgottenBoots: [{ boot: 1, up }],
    packIntervalMs: 10,
    missingPacks: { fromSeq: 3, completeToMs: 4, sinceMs: 5 },
    fullScale: { maxByChannel: { current: 30 }, atMs: 6 },
    liveness: {
      lastHeardMs: 7,
      burstIntervalMs: 8,
      burstCount: 9,
      gaps: [{ durationMs: 1, endedMs: 2 }],
      reportIntervalMs: 3,
      bufferMs: 4,
    },
    news: [{ atMs: 1, node: { news: 'full-scale', node: 'barn', maxByChannel: { current: 30 } } }],
  };
  expect(node).toEqual(today);
  renameSavedNode(node);
  expect(node).toEqual(today);
});

test('a row, a site, and news', () => {
  const row = { node: 'barn', letIn: true };
  expect(renameSavedRow(row)).toBe(true);
  expect(row).toEqual({ node: 'barn', approved: true });
  expect(renameSavedRow(row)).toBe(false);
  const site = { site: 'home', silent: [{ node: 'barn', told: 'alone' }] };
  renameSavedSite(site);
  expect(site.silent).toEqual([{ node: 'barn', reported: 'alone' }]);
  const news = { news: 'full-scale', most: { current: 1 } };
  renameSavedNews(news);
  expect(news).toEqual({ news: 'full-scale', maxByChannel: { current: 1 } });
});
