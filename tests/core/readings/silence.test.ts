/**
 * Rows of who was heard when, and what became news: '0 p' a pack at minute 0; `here gone no-power`,
 * with `'` for a retained copy.
 */
import { describe, expect, test } from 'vitest';
import {
  newNode,
  excuseServerOutage,
  receiveHello,
  receivePack,
  receivePresence,
  drainNews,
} from '../../../src/core/readings/node.ts';
import { newLiveness, silenceDueMs, silenceLimitMs } from '../../../src/core/readings/silence.ts';
import type { Presence } from '../../../src/core/decode/messages.ts';
import { hello, NOON, pack } from '../../support/packs.ts';

const MIN = 60_000;

function presenceOf(word: string): Presence {
  const found = (['here', 'gone', 'no-power'] as const).find((presence) => word.startsWith(presence));
  if (!found) throw new Error(`Cannot read the row: ${word}`);
  return found;
}

/** `0..9 p` is a pack each minute from 0 to 9; `30-90 away` our own absence. */
function said(text: string, untilMin: number, more: { holdsS?: number; everyS?: number } = {}): string[] {
  const state = newNode('barn');
  const channels = more.everyS === undefined ? [] : [{ n: 'current', u: 'A', every: more.everyS }];
  const { holdsS } = more;
  receiveHello(state, hello({ channels, ...(holdsS !== undefined && { holdsS }) }), true, NOON);
  const news: string[] = [];
  const take = (atMin: number): void => {
    for (const { atMs, node } of drainNews(state, NOON + atMin * MIN)) {
      const since = node.news === 'silent' ? ` since ${(node.sinceMs - NOON) / MIN}` : '';
      news.push(`${(atMs - NOON) / MIN} ${node.news}${since}`);
    }
  };
  for (const word of text.split(', ')) {
    const [when = '', what = ''] = word.split(' ');
    const [from = 0, to = from] = when.split(/\.\.|-/).map(Number);
    if (what === 'away') excuseServerOutage(state, NOON + from * MIN, NOON + to * MIN);
    else {
      for (let at = from; at <= to; at++) {
        take(at);
        if (what === 'p') receivePack(state, pack({ fromMs: NOON + at * MIN - 5000 }), NOON + at * MIN);
        else if (what === 'hello') receiveHello(state, hello({}), false, NOON + at * MIN);
        else receivePresence(state, presenceOf(what), what.endsWith("'"), NOON + at * MIN);
      }
    }
  }
  take(untilMin);
  return news;
}

describe('silence is news after longer than the node ever is', () => {
  test.each([
    ['one that speaks each minute: after ten', '0..9 p', 30, ['19 silent since 9']],
    ['and it is said when it is heard again', '0..9 p, 40 p', 45, ['19 silent since 9', '40 heard']],
    ['a duplicate or a hello is being heard too', '0..9 p, 17 hello', 26, []],
    ['one that was hardly ever heard: after an hour', '0..2 p', 70, ['62 silent since 2']],
    ['one that was never heard is not silent', "0 here'", 500, []],
    ['a retained copy is not being heard', "0..9 p, 15 here'", 30, ['19 silent since 9']],
    ['nor is its Will', '0..9 p, 11 gone', 30, ['19 silent since 9']],
  ] as [string, string, number, string[]][])('%s', (_, text, until, news) => {
    expect(said(text, until)).toEqual(news);
  });

  test('one that speaks each 20 minutes is silent after missing three turns', () => {
    const text = Array.from({ length: 10 }, (_, i) => `${i * 20} p`).join(', ');
    expect(said(text, 400)).toEqual(['240 silent since 180']);
  });

  test('three silences are a habit, one is none', () => {
    const once = '0..9 p, 18..30 p';
    const thrice = '0..9 p, 18..30 p, 39..50 p, 59..70 p';
    expect(said(once, 60)).toEqual(['40 silent since 30']);
    // Three of nine minutes: half as much again.
    expect(said(thrice, 120)).toEqual(['83.5 silent since 70']);
  });

  test('what it promises counts before it has habits, what it can hold bounds them', () => {
    expect(said('0..9 p', 200, { everyS: 600 })).toEqual(['39 silent since 9']);
    expect(said('0..9 p', 200, { everyS: 3600, holdsS: 1800 })).toEqual(['39 silent since 9']);
  });
});

describe('no-power', () => {
  test.each([
    ['is said, and what follows it changes nothing', '0..9 p, 10 no-power, 12 gone', 300, ['10 no-power']],
    ['is over when the node is heard', '0..9 p, 10 no-power, 50 here', 52, ['10 no-power', '50 power-back']],
    ['said twice is one', "0..9 p, 10 no-power, 11 no-power'", 52, ['10 no-power']],
    [
      'then heard, then silent',
      '0..9 p, 10 no-power, 20..25 p',
      60,
      ['10 no-power', '20 power-back', '35 silent since 25'],
    ],
    ['a kept copy of it counts, for it still stands', "0 no-power'", 300, ['0 no-power']],
  ] as [string, string, number, string[]][])('%s', (_, text, until, news) => {
    expect(said(text, until)).toEqual(news);
  });
});

describe("our own absence is nobody's silence", () => {
  test.each([
    ['what seems silent meanwhile', '0..9 p, 10-300 away, 301..305 p', 310, []],
    [
      'what does not come back is counted from our return',
      '0..9 p, 10-300 away',
      330,
      ['310 silent since 300'],
    ],
    ['what was silent before is said', '0..9 p, 30-300 away, 301 p', 305, ['19 silent since 9', '301 heard']],
    [
      'and it is no habit',
      '0..9 p, 10-300 away, 301..320 p, 321-600 away, 601..620 p, 621-900 away, 901..910 p',
      930,
      ['920 silent since 910'],
    ],
  ] as [string, string, number, string[]][])('%s', (_, text, until, news) => {
    expect(said(text, until)).toEqual(news);
  });
});

test('silenceDueMs is when the silence becomes news', () => {
  const liveness = newLiveness();
  expect(silenceDueMs(liveness)).toBe(Number.POSITIVE_INFINITY);
  Object.assign(liveness, { lastHeardMs: NOON, burstCount: 5, burstIntervalMs: MIN });
  expect(silenceDueMs(liveness)).toBe(NOON + silenceLimitMs(liveness, NOON));
  expect(silenceDueMs({ ...liveness, noPower: true })).toBe(Number.POSITIVE_INFINITY);
  expect(silenceDueMs({ ...liveness, silentSinceMs: NOON })).toBe(Number.POSITIVE_INFINITY);
});

test('silenceLimitMs never passes 26 h', () => {
  const gaps = Array.from({ length: 3 }, () => ({ durationMs: 25 * 60 * MIN, endedMs: NOON }));
  expect(silenceLimitMs({ ...newLiveness(), gaps, burstCount: 5 }, NOON)).toBe(26 * 60 * MIN);
});
