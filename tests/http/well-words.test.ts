import { describe, expect, test } from 'vitest';
import type { AlarmAnswer, SymptomAnswer } from '../../shared/api/alarms.ts';
import { agoWords, clockWords, localDate, momentWords, whenWords } from '../../shared/text/en/time-words.ts';
import {
  attentionOf,
  compareByAttention,
  doingWords,
  headlineWords,
  urgencyOfWell,
} from '../../shared/text/en/well-words.ts';
import type { WellStatus } from '../../shared/api/wells.ts';

const NOW = Date.parse('2026-03-12T18:15:00Z');
const MIN = 60_000;
const DAY = 86_400_000;
const ZONE = 'America/Denver';

function well(more: Partial<WellStatus> = {}): WellStatus {
  return {
    well: 'north-paddock',
    timeZone: ZONE,
    uses: ['stock'],
    mode: 'watching',
    lastReadingMs: NOW - 5_000,
    pressureKpa: 406.8,
    pumps: [{ pump: 'p1', running: false, sinceMs: NOW - 10 * MIN, startsToday: 9, ranTodayS: 840 }],
    ...more,
  };
}

function alarm(more: Partial<AlarmAnswer> = {}): AlarmAnswer {
  return {
    id: 'a',
    well: 'north-paddock',
    alarm: 'short-cycling',
    priority: 'soon',
    state: 'unacknowledged',
    active: true,
    sinceMs: Date.parse('2026-03-10T15:00:00Z'),
    raisedMs: NOW,
    reason: 'as-written',
    figures: { text: more.why ?? '14 starts in 18 min; normal is 1' },
    why: '14 starts in 18 min; normal is 1',
    evidence: {},
    causes: [],
    ...more,
  };
}

function symptom(of: Pick<SymptomAnswer, 'alarm' | 'notified'>): SymptomAnswer {
  const figures = { text: '' };
  return { ...of, symptomOf: 'tank-air-lost', sinceMs: NOW, reason: 'as-written', figures, why: '' };
}

describe('doingWords', () => {
  test.each<[why: string, well: WellStatus, words: string]>([
    ['at rest', well(), 'Resting. 59 psi. Ran 14 min today, 9 starts.'],
    [
      'running',
      well({
        pumps: [
          { pump: 'p1', running: true, sinceMs: NOW - 2 * MIN, amps: 7.93, startsToday: 1, ranTodayS: 120 },
        ],
      }),
      'Running for 2 min at 7.9 A. 59 psi. Ran 2 min today, 1 start.',
    ],
    [
      'a third longer than ever',
      well({
        pumps: [
          {
            pump: 'p1',
            running: true,
            sinceMs: NOW - 9 * MIN,
            longestRunS: 360,
            amps: 7.93,
            startsToday: 1,
            ranTodayS: 540,
          },
        ],
      }),
      'Running for 9 min at 7.9 A, unusually long: its longest run so far took 6 min. 59 psi. Ran 9 min today, 1 start.',
    ],
    [
      'two pumps',
      well({
        pumps: [
          { pump: 'p1', running: false, startsToday: 0, ranTodayS: 0 },
          { pump: 'p2', startsToday: 0, ranTodayS: 0 },
        ],
      }),
      'Pump 1 resting, pump 2 state not known. 59 psi. No run today.',
    ],
    [
      'learning',
      well({ mode: 'learning' }),
      'Resting. 59 psi. Ran 14 min today, 9 starts. Still learning what is normal here.',
    ],
    [
      'guests are expected',
      well({ expected: { text: 'guests', untilMs: NOW + DAY } }),
      'Resting. 59 psi. Ran 14 min today, 9 starts. Expected: guests.',
    ],
  ])('%s', (_why, one, words) => expect(doingWords(one, 'us', NOW)).toBe(words));

  test('without pressure nothing is said of it; metric units are metric', () => {
    const { pressureKpa: _none, ...rest } = well();
    expect(doingWords(rest, 'us', NOW)).toBe('Resting. Ran 14 min today, 9 starts.');
    expect(doingWords(well(), 'metric', NOW)).toBe('Resting. 407 kPa. Ran 14 min today, 9 starts.');
  });
});

describe('headlineWords', () => {
  test.each<[why: string, well: WellStatus, standing: AlarmAnswer[], words: string]>([
    ['nothing stands', well(), [], 'Resting. 59 psi. Ran 14 min today, 9 starts.'],
    ['an alarm', well(), [alarm()], 'Pump starts too often since Tuesday: 14 starts in 18 min.'],
    [
      'the worst of two leads',
      well(),
      [
        alarm(),
        alarm({
          alarm: 'no-start',
          priority: 'now',
          sinceMs: NOW - 30 * MIN,
          why: 'Pressure is 22 psi, under cut-in',
        }),
      ],
      'Pump should run and does not since 11:45 am: pressure is 22 psi, under cut-in. And 1 more.',
    ],
    [
      'an alarm that was told first and is the symptom of another neither leads nor counts',
      well({
        symptoms: [
          symptom({ alarm: 'short-cycling', notified: true }),
          symptom({ alarm: 'cycle-count', notified: false }),
        ],
      }),
      [alarm(), alarm({ alarm: 'tank-air-lost', sinceMs: NOW - 30 * MIN, why: 'A fill takes 20 s' })],
      'Pressure tank has lost air since 11:45 am: a fill takes 20 s.',
    ],
    [
      'a shelved alarm is put aside',
      well(),
      [alarm({ shelvedUntilMs: NOW + DAY })],
      'Resting. 59 psi. Ran 14 min today, 9 starts.',
    ],
    [
      'a visit',
      well({ mode: 'visit', modeSinceMs: NOW - 30 * MIN }),
      [alarm()],
      'Service visit open since 11:45 am: alarms are suppressed until it is closed.',
    ],
    [
      'laid up',
      well({ mode: 'laid-up', modeUntilMs: Date.parse('2027-04-01T12:00:00Z') }),
      [],
      'Laid up until 1 April 2027.',
    ],
    ['silent for long', well({ lastReadingMs: NOW - 3 * 60 * MIN }), [], 'No data since 9:15 am.'],
  ])('%s', (_why, one, standing, words) => expect(headlineWords(one, standing, 'us', NOW)).toBe(words));
});

describe('attentionOf', () => {
  test.each<[why: string, well: WellStatus, standing: AlarmAnswer[], attention: string]>([
    ['nothing stands', well(), [], 'normal'],
    ['the worst counts', well(), [alarm({ priority: 'note' }), alarm({ priority: 'now' })], 'now'],
    ['a silent node is not heard', well(), [alarm({ alarm: 'node-silent' })], 'no-data'],
    [
      'a silent node that matters now is now',
      well(),
      [alarm({ alarm: 'node-silent', priority: 'now' })],
      'now',
    ],
    ['never heard', { ...well(), lastReadingMs: 0 }, [], 'no-data'],
    ['people at work', well({ mode: 'visit' }), [alarm({ priority: 'now' })], 'visit'],
    ['laid up', well({ mode: 'laid-up' }), [], 'not-in-use'],
    ['shelved', well(), [alarm({ shelvedUntilMs: NOW + 1 })], 'normal'],
    ['shelved, and the time is over', well(), [alarm({ shelvedUntilMs: NOW })], 'soon'],
  ])('%s', (_why, one, standing, attention) => expect(attentionOf(one, standing, NOW)).toBe(attention));

  test.each<[why: string, standing: AlarmAnswer[], urgency: string | undefined]>([
    ['nothing stands', [], undefined],
    ['days', [alarm()], 'soon'],
    ['the day', [alarm({ alarm: 'store-low', priority: 'now' }), alarm()], 'today'],
    [
      'minutes, beside one of the day',
      [alarm({ alarm: 'store-low', priority: 'now' }), alarm({ alarm: 'dry-run', priority: 'now' })],
      'minutes',
    ],
    [
      'by its form',
      [alarm({ alarm: 'long-run', priority: 'now', evidence: { switch: 'should be open' } })],
      'minutes',
    ],
    [
      'not by what is shelved',
      [
        alarm({ alarm: 'store-low', priority: 'now' }),
        alarm({ alarm: 'dry-run', priority: 'now', shelvedUntilMs: NOW + 1 }),
      ],
      'today',
    ],
    ['a silent node is not heard, and no alarm asks', [alarm({ alarm: 'node-silent' })], undefined],
  ])('urgencyOfWell: %s', (_why, active, urgency) =>
    expect(urgencyOfWell({ attention: attentionOf(well(), active, NOW), activeAlarms: active }, NOW)).toBe(
      urgency,
    ),
  );

  test('byAttention: worst first, then by name', () => {
    const list = [
      { attention: 'normal', well: 'a' },
      { attention: 'now', well: 'z' },
      { attention: 'normal', well: 'B' },
    ] as const;
    expect(list.toSorted(compareByAttention).map(({ well: name }) => name)).toEqual(['z', 'a', 'B']);
  });
});

describe('times in the well’s zone', () => {
  // Daylight saving began in Denver on 8 March 2026 at 02:00 (IANA time zone database).
  test.each([
    ['before the clocks change', '2026-03-08T08:30:00Z', '1:30 am', '2026-03-08'],
    ['after', '2026-03-08T09:30:00Z', '3:30 am', '2026-03-08'],
    ['late in the evening it is still that day there', '2026-03-12T05:30:00Z', '11:30 pm', '2026-03-11'],
    ['midnight', '2026-03-12T06:00:00Z', '12:00 am', '2026-03-12'],
  ])('%s', (_why, at, clock, date) => {
    expect(clockWords(Date.parse(at), ZONE, 'us')).toBe(clock);
    expect(localDate(Date.parse(at), ZONE)).toBe(date);
  });

  test.each([
    ['today', NOW - MIN, '12:14'],
    ['this week', NOW - 2 * DAY, 'Tuesday'],
    ['a week ago it is a date', NOW - 7 * DAY, '5 March'],
    ['last year', NOW - 200 * DAY, '24 August 2025'],
  ])('whenWords: %s', (_why, at, words) => expect(whenWords(at, ZONE, 'metric', NOW)).toBe(words));

  test('a moment in full, and how long ago', () => {
    expect(momentWords(NOW, ZONE, 'us', NOW)).toBe('Thu 12 March, 12:15 pm');
    expect([agoWords(NOW - 2_000, NOW), agoWords(NOW - 240_000, NOW)]).toEqual(['just now', '4 min ago']);
  });
});
