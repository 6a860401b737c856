import { describe, expect, test } from 'vitest';
import { currentDowntime, downtimes } from '../../../src/logbook/due/downtime.ts';

const DAY_MS = 86_400_000;
type Reported = [day: number, kind: string, untilDay?: number];

const acts = (reported: readonly Reported[]) =>
  reported.map(([day, kind, until]) => ({
    kind,
    atMs: day * DAY_MS,
    ...(until !== undefined && { untilMs: until * DAY_MS }),
  }));
/** `laid-up 3-9`, in days; an end that nobody knows is left out. */
const rests = (reported: readonly Reported[]): string[] =>
  downtimes(acts(reported)).map(
    ({ is, sinceMs, endMs }) => `${is} ${sinceMs / DAY_MS}-${endMs === undefined ? '' : endMs / DAY_MS}`,
  );

describe('restsOf', () => {
  test.each<[what: string, reported: Reported[], rests: string[]]>([
    ['never', [[1, 'card-changed']], []],
    ['until its written end', [[3, 'laid-up', 9]], ['laid-up 3-9']],
    ['without an end', [[3, 'laid-up']], ['laid-up 3-']],
    [
      'put back before its end',
      [
        [3, 'laid-up', 9],
        [5, 'back-in-service'],
      ],
      ['laid-up 3-5'],
    ],
    [
      'put back when it was back already',
      [
        [3, 'laid-up', 9],
        [12, 'back-in-service'],
      ],
      ['laid-up 3-9'],
    ],
    [
      'said again, the newer end counts',
      [
        [3, 'laid-up', 9],
        [4, 'laid-up', 7],
      ],
      ['laid-up 3-7'],
    ],
    [
      'said again without an end',
      [
        [3, 'laid-up', 9],
        [4, 'laid-up'],
      ],
      ['laid-up 3-'],
    ],
    ['an end that was past already', [[3, 'laid-up', 2]], []],
    [
      'out of service',
      [
        [3, 'out-of-service'],
        [8, 'back-in-service'],
      ],
      ['out-of-service 3-8'],
    ],
    [
      'both at once are one rest',
      [
        [3, 'laid-up', 9],
        [7, 'out-of-service'],
        [20, 'back-in-service'],
      ],
      ['out-of-service 3-20'],
    ],
    [
      'the shorter one within',
      [
        [3, 'out-of-service'],
        [4, 'laid-up', 6],
        [9, 'back-in-service'],
      ],
      ['out-of-service 3-9'],
    ],
    [
      'two winters are two',
      [
        [3, 'laid-up', 9],
        [30, 'laid-up', 40],
      ],
      ['laid-up 3-9', 'laid-up 30-40'],
    ],
    [
      'as they came or not',
      [
        [5, 'back-in-service'],
        [3, 'laid-up', 9],
      ],
      ['laid-up 3-5'],
    ],
    [
      'a visit ends none',
      [
        [3, 'laid-up', 9],
        [4, 'visit-opened'],
        [5, 'visit-closed'],
      ],
      ['laid-up 3-9'],
    ],
  ])('%s', (_, reported, is) => expect(rests(reported)).toEqual(is));
});

describe('restNow', () => {
  const TWO: Reported[] = [
    [3, 'laid-up', 9],
    [30, 'laid-up', 40],
  ];
  test.each<[day: number, now: number | undefined, last: number | undefined]>([
    [1, undefined, undefined],
    [3, 3, undefined],
    [8, 3, undefined],
    [9, undefined, 3],
    [35, 30, undefined],
    [41, undefined, 30],
  ])('on day %i', (day, nowSince, lastSince) => {
    const { now, last } = currentDowntime(acts(TWO), day * DAY_MS);
    const since = (rest: typeof now): number | undefined => rest && rest.sinceMs / DAY_MS;
    expect([since(now), since(last)]).toEqual([nowSince, lastSince]);
  });
});
