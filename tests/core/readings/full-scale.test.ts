/** What a hello says of full scales, and when its wells hear of it. */
import { describe, expect, test } from 'vitest';
import { newNode, receiveHello, drainNews, republishFullScale } from '../../../src/core/readings/node.ts';
import type { HelloChannel } from '../../../src/core/decode/messages.ts';
import { hello, NOON } from '../../support/packs.ts';

const MIN = 60_000;
const CLAMP = { n: 'current', u: 'A', max: 60 };
const GAUGE = { n: 'pressure', u: 'Pa', max: 1_034_000 };

/** One hello a minute from noon on, and what becomes news of them: 'minute channel most'. */
function reported(...hellos: HelloChannel[][]): string[] {
  const state = newNode('barn');
  for (const [at, channels] of hellos.entries())
    receiveHello(state, hello({ channels }), false, NOON + at * MIN + 30_000);
  return newsOf(state);
}

function newsOf(state: ReturnType<typeof newNode>): string[] {
  return drainNews(state, NOON + 5 * MIN).flatMap(({ atMs, node }) =>
    node.news === 'full-scale'
      ? [[(atMs - NOON) / MIN, ...Object.entries(node.maxByChannel).flat()].join(' ')]
      : [],
  );
}

describe('what a sensor can show at most', () => {
  test.each<[string, HelloChannel[][], string[]]>([
    ['counts from the next minute but one', [[CLAMP]], ['2 current 60']],
    ['of several channels', [[CLAMP, GAUGE]], ['2 current 60 pressure 1034000']],
    ['is news once', [[CLAMP], [CLAMP], [CLAMP]], ['2 current 60']],
    [
      'is news again where it is another',
      [[CLAMP], [{ ...CLAMP, max: 30 }]],
      ['2 current 60', '3 current 30'],
    ],
    ['is taken back', [[CLAMP], [{ n: 'current', u: 'A' }]], ['2 current 60', '3']],
    ['is not said', [[{ n: 'current', u: 'A' }]], []],
    ['is none of a run', [[{ n: 'level', u: 'm', max: 30 }]], []],
    ['is in another unit', [[{ n: 'pressure', u: 'kPa', max: 1034 }]], []],
    ['is nothing at all', [[{ n: 'current', u: 'A', max: 0 }]], []],
    ['is of a channel that nobody knows', [[{ n: 'humour', u: 'A', max: 4 }]], []],
  ])('%s', (_name, hellos, news) => {
    expect(reported(...hellos)).toEqual(news);
  });

  test('is told again to wells that did not hear it: from the hello on, or from a new card on', () => {
    const state = newNode('barn');
    republishFullScale(state, NOON);
    receiveHello(state, hello({ channels: [CLAMP] }), false, NOON);
    drainNews(state, NOON);
    republishFullScale(state);
    republishFullScale(state, NOON + 3 * MIN);
    expect(newsOf(state)).toEqual(['2 current 60', '5 current 60']);
  });

  test('with the span that each reading is the mean of, where that is over 2 s', () => {
    const state = newNode('barn');
    const meter: HelloChannel[] = [
      { ...CLAMP, is: 'mean', over: 60 },
      { ...GAUGE, is: 'spot', over: 60 },
      { n: 'current-2', u: 'A', is: 'mean', over: 1 },
    ];
    receiveHello(state, hello({ channels: meter }), false, NOON);
    receiveHello(state, hello({ channels: [CLAMP, GAUGE] }), false, NOON + MIN);
    const spans = drainNews(state, NOON + 5 * MIN).map(({ node }) =>
      node.news === 'full-scale' ? node.spanMsByChannel : node.news,
    );
    expect(spans).toEqual([{ current: 60_000 }, undefined]);
  });
});
