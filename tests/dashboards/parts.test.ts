import { describe, expect, test } from 'vitest';
import { alarmUrl, alarmIdParts, parsePage } from '../../dashboards/page-url.ts';
import { appendReadings, aligned, bufferOf, LIVE_MS } from '../../dashboards/pages/well/live-buffer.ts';
import { inUnits, spanWords } from '../../dashboards/charts/measure.ts';
import { outsideWords, overlay } from '../../dashboards/pages/well/overlay.ts';
import { ribbonShape, medianDay } from '../../dashboards/charts/ribbon-path.ts';
import { causeLines, likelyWords } from '../../dashboards/words/alarm.ts';
import { summaryWords } from '../../dashboards/words/attention.ts';
import { countText, nameText, placeText, withNonBreakingUnits } from '../../shared/text/en/names.ts';
import { texts } from '../../dashboards/texts.ts';

describe('parsePage', () => {
  test.each([
    ['', { at: 'wells' }],
    ['#/', { at: 'wells' }],
    ['#/well/north-paddock', { at: 'well', well: 'north-paddock' }],
    ['#/well/', { at: 'nowhere' }],
    ['#/well/a/b', { at: 'nowhere' }],
    ['#/alarm/barn%2Fp1%2Fleak%2F12', { at: 'alarm', id: 'barn/p1/leak/12' }],
    ['#/alarm/', { at: 'nowhere' }],
    ['#/nodes', { at: 'nodes' }],
    ['#/nodes/x', { at: 'nowhere' }],
    ['#/refused', { at: 'refused' }],
    ['#/parts', { at: 'parts' }],
    ['#/parts/check-valve', { at: 'part', part: 'check-valve' }],
    ['#/parts/wheel', { at: 'nowhere' }],
    ['#/well/%E0%A4%A', { at: 'well', well: '%E0%A4%A' }],
    ['#/well/house-hill/visit', { at: 'logbook', well: 'house-hill', logbookPage: 'visit' }],
    ['#/well/house-hill/card', { at: 'logbook', well: 'house-hill', logbookPage: 'card' }],
    ['#/new-well', { at: 'new-well' }],
    ['#/well/house-hill/toString', { at: 'nowhere' }],
  ])('%s', (hash, page) => expect(parsePage(hash)).toEqual(page));
});

test('an alarm’s id says its well, its kind and its beginning; its address leads back to it', () => {
  const id = 'home-farm/-/site-silent/1795600000000/2';
  expect(parsePage(alarmUrl(id))).toEqual({ at: 'alarm', id });
  expect(alarmIdParts(id)).toEqual({ place: 'home-farm', alarm: 'site-silent', sinceMs: 1795600000000 });
  expect(alarmIdParts('barn/p1/no-such/12')).toBeUndefined();
  expect(alarmIdParts('barn/p1/leak/soon')).toBeUndefined();
});

describe('ribbonShape', () => {
  const box = { width: 50, height: 20 };

  test('a usual week is one layer from end to end', () => {
    const { layers, unknown } = ribbonShape([10, 10, 10, 10, 10], 10, box);
    expect(layers.map(({ level }) => level)).toEqual([0]);
    expect(layers[0]?.path.startsWith('M0 3.75')).toBe(true);
    expect(unknown).toBe('');
  });

  test('a day far over the usual one shows every layer, the innermost painted last', () => {
    const { layers } = ribbonShape([10, 40, 10], 10, box);
    expect(layers.map(({ level }) => level)).toEqual([3, 2, 1, 0]);
  });

  test('days of which nothing is known break it and leave a thread', () => {
    const { layers, unknown } = ribbonShape([10, null, null, 10, 10], 10, box);
    expect(unknown).toBe('M10 10H30');
    expect(layers[0]?.path.match(/M/g)).toHaveLength(2);
  });

  test('nothing known at all is a thread alone', () => {
    expect(ribbonShape([null, null], 10, box)).toEqual({ layers: [], unknown: 'M0 10H50' });
  });

  test('the curve never leaves what was measured', () => {
    const { layers } = ribbonShape([5, 30, 1, 22, 0], 10, box);
    const ys = layers.flatMap(({ path }) =>
      [...path.matchAll(/-?[\d.]+ (-?[\d.]+)/g)].map(([, y]) => Number(y)),
    );
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...ys)).toBeLessThanOrEqual(20);
  });

  test('medianDay: the middle of the known days that ran', () => {
    expect(medianDay([null, 3, 9, 0, 5])).toBe(5);
    expect(medianDay([null])).toBe(1);
  });
});

describe('the live buffer', () => {
  const start = bufferOf([
    {
      channel: 'pressure',
      unit: 'kPa',
      fromMs: 1_000_000,
      stepMs: 1_000,
      low: [],
      high: [],
      mean: [300, null, 302],
    },
  ]);

  test('takes what the chart holds, without its holes', () => {
    expect(start.get('pressure')).toEqual({ timesMs: [1_000_000, 1_002_000], values: [300, 302] });
  });

  test('adds what is new, once, and lets go of what is older than 15 min', () => {
    const column = { channel: 'pressure', timesMs: [1_002_000, 1_003_000], values: [1, 303] };
    const next = appendReadings(appendReadings(start, [column], 1_003_000), [column], 1_003_000);
    expect(next.get('pressure')?.values).toEqual([300, 302, 303]);
    const later = appendReadings(
      next,
      [{ channel: 'pressure', timesMs: [1_004_000], values: [null] }],
      1_003_000 + LIVE_MS,
    );
    expect(later.get('pressure')).toEqual({ timesMs: [1_003_000, 1_004_000], values: [303, null] });
  });

  test('a silence over 90 s is a hole; a value holds until the other channel’s time', () => {
    const buffer = new Map([
      ['current', { timesMs: [0, 200_000], values: [7, 8] }],
      ['p2/current', { timesMs: [10_000], values: [5] }],
    ]);
    expect(aligned(buffer, ['current', 'p2/current'])).toEqual({
      xs: [0, 10, 90, 200],
      lines: [
        [7, 7, null, 8],
        [null, 5, 5, null],
      ],
    });
  });
});

describe('overlay', () => {
  const usual = {
    everyS: 10,
    amps: [8, 8, 8],
    ampsSpread: [0.1, 0.1, 0.1],
    kpa: [300, 320, 340],
    kpaSpread: [2, 2, 2],
  };

  test('a shorter run lies on the longer one’s steps, the band two spreads wide', () => {
    const { xs, run, low, high } = overlay(
      { everyS: 5, amps: [8, 7, 7], kpa: [300, 310, 320] },
      usual,
      'kpa',
    );
    expect(xs).toEqual([0, 10, 20]);
    expect(run).toEqual([300, 320, null]);
    expect(low).toEqual([296, 316, 336]);
    expect(high).toEqual([304, 324, 344]);
  });

  test('without a usual run there is no band', () => {
    const { run, low } = overlay({ everyS: 5, amps: [8, 7], kpa: [null, null] }, undefined, 'amps');
    expect(run).toEqual([8, 7]);
    expect(low).toEqual([null, null]);
  });

  test.each([
    ['inside', [8, 8.1], 'Inside the normal band throughout.'],
    ['half of it outside', [8, 9], 'Outside the normal band for 50 % of the run.'],
    ['nothing to compare', [null, null], 'No normal run to compare with.'],
  ])('%s is said so', (_why, last, words) => expect(outsideWords(last, [7.8, 7.8], [8.2, 8.2])).toBe(words));
});

describe('words', () => {
  test('look-alikes that are both named share a line, their weight, and what tells them apart', () => {
    const lines = causeLines(
      {
        alarm: 'long-run',
        evidence: { ampsShare: 1.1 },
        causes: [
          { cause: 'broken-pipe', weight: 0.4 },
          { cause: 'leak', weight: 0.35 },
          { cause: 'open-tap', weight: 0.25 },
        ],
      },
      'us',
    );
    expect(lines.map(({ causes }) => causes)).toEqual([['leak', 'open-tap'], ['broken-pipe']]);
    expect(lines[0]).toMatchObject({
      likely: 'most likely',
      distinguishedBy: expect.stringContaining('taps') as string,
    });
    expect(lines[1]?.distinguishedBy).toBeUndefined();
    expect(lines[1]?.for).toEqual(['The pump draws 10 % more than usual.']);
  });

  test('one of a group alone is not named with the others', () => {
    const alone = { alarm: 'leak' as const, evidence: {}, causes: [{ cause: 'leak' as const, weight: 1 }] };
    expect(causeLines(alone, 'us')[0]).toMatchObject({ causes: ['leak'], for: [], against: [] });
  });

  test.each([
    [0.6, 'most likely'],
    [0.3, 'possible'],
    [0.29, 'less likely'],
  ])('a weight of %d is %s', (weight, words) => expect(likelyWords(weight)).toBe(words));

  test.each([
    [0.6, 'most likely'],
    [0.4, 'likely, but not certain'],
    [0.2, 'most likely of several'],
  ])('of the leading one, %d is %s', (weight, words) => expect(likelyWords(weight, true)).toBe(words));

  test.each([
    [['normal', 'normal'] as const, '2 wells: no active alarm.'],
    [['normal'] as const, '1 well: no active alarm.'],
    [['now', 'soon', 'soon', 'normal'] as const, '4 wells: 1 to act on now, 2 this week.'],
    [
      ['minutes', 'today', 'soon', 'normal'] as const,
      '4 wells: 1 to act on now, 1 to act on today, 1 this week.',
    ],
    [['no-data', 'note'] as const, '2 wells: 1 without data, 1 worth a look.'],
  ])('%j', (attentions, words) => expect(summaryWords(attentions)).toBe(words));

  test('every attention has a word of its own', () => {
    const words = Object.values(texts().attention);
    expect(new Set(words).size).toBe(words.length);
  });

  test('names, places and counts', () => {
    expect(nameText('north-paddock')).toBe('North paddock');
    expect(placeText({ site: 'harrow-bend', uses: ['house', 'stock'] })).toBe(
      'Harrow bend, for house and stock',
    );
    expect(placeText({ uses: [] })).toBe('');
    expect(withNonBreakingUnits('It draws 5.6 % less, 9 A in all')).toBe(
      'It draws 5.6\u00a0% less, 9\u00a0A in all',
    );
    expect([0, 1, 2].map((n) => countText(n, 'node waits', 'nodes wait'))).toEqual([
      'no nodes wait',
      '1 node waits',
      '2 nodes wait',
    ]);
  });

  test('a series in people’s units, and in one sentence', () => {
    expect(inUnits([100, null, undefined], 'pressure', 'us').map((v) => v && Math.round(v))).toEqual([
      15,
      null,
      null,
    ]);
    expect(spanWords([7.91, null, 8.04, 7.8], 'A', 1)).toBe('from 7.8 to 8 A, last 7.8 A');
    expect(spanWords([null], 'A', 1)).toBe('no values');
  });
});
