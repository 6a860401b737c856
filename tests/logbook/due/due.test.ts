import { describe, expect, test } from 'vitest';
import type { Card } from '../../../src/core/domain/card.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { dueChecks, type ActSummary, type DueCheck, type DueInput } from '../../../src/logbook/due/due.ts';
import { isSouthern, isCheckNeeded } from '../../../src/logbook/due/due-rules.ts';
import { currentEntries, type Entry } from '../../../shared/entries/entry.ts';
import { prechargeTarget } from '../../../src/logbook/readings/precharge-target.ts';
import { psiFromKpa, kpaFromPsi } from '../../../shared/units/pressure.ts';

const NOW = Date.parse('2026-05-10T18:00:00Z');
const DAY_MS = 86_400_000;

function cardOf(more: Record<string, unknown> = {}): Card {
  const read = readCard({
    well: 'orchard',
    timeZone: 'America/Denver',
    switch: { cutIn: '40 psi', cutOut: '60 psi' },
    tank: { kind: 'captive-air', volume: '44 gal' },
    ...more,
  });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

let made = 0;
function entry(
  kind: Entry['kind'],
  on: string,
  body: Record<string, unknown>,
  more: Partial<Entry> = {},
): Entry {
  made += 1;
  const atMs = Date.parse(`${on}T18:00:00Z`);
  return { id: `e${made}`, well: 'orchard', kind, atMs, createdMs: atMs, body, ...more } as Entry;
}

function inputOf(entries: Entry[], more: Partial<DueInput> = {}): DueInput {
  return {
    card: cardOf(),
    entries: currentEntries(entries),
    acts: [],
    nodes: ['orchard'],
    activeAlarms: [],
    firstSeenMs: Date.parse('2026-05-01T18:00:00Z'),
    nowMs: NOW,
    ...more,
  };
}

function dueOf(check: string, entries: Entry[], more: Partial<DueInput> = {}): DueCheck {
  const found = dueChecks(inputOf(entries, more)).find((one) => one.check === check);
  if (!found) throw new Error(`no ${check}`);
  return found;
}

const done = (check: string, on: string, outcome = 'right', body = {}): Entry =>
  entry('check', on, { check, outcome, ...body });
const tested = (on: string, results: [string, string, string?][]): Entry =>
  entry('water-test', on, {
    results: results.map(([analyte, value, unit]) => ({ analyte, value, ...(unit && { unit }) })),
  });
const CLEAN: [string, string, string?][] = [
  ['Total coliform', 'absent'],
  ['Nitrate', '2.1', 'mg/L as N'],
];

describe('a check comes round', () => {
  test.each<[what: string, check: string, entries: Entry[], on: string, state: string, first?: string]>([
    [
      'first planned by days, and never done',
      'precharge',
      planFrom('2026-05-02', 365),
      '2027-05-02',
      'later',
    ],
    ['a year after it was done', 'precharge', [done('precharge', '2025-09-01')], '2026-09-01', 'later'],
    ['overdue', 'precharge', [done('precharge', '2025-05-09')], '2026-05-09', 'overdue'],
    ['today is due and not overdue', 'precharge', [done('precharge', '2025-05-10')], '2026-05-10', 'due'],
    [
      'a precharge that somebody read counts',
      'precharge',
      [entry('reading', '2026-04-01', { what: 'precharge', value: '38 psi' })],
      '2027-04-01',
      'later',
    ],
    [
      'put right counts',
      'relief-valve',
      [done('relief-valve', '2026-03-01', 'put-right')],
      '2027-03-01',
      'later',
    ],
    [
      'not right is due again in a month',
      'relief-valve',
      [done('relief-valve', '2026-05-01', 'not-right')],
      '2026-05-31',
      'due',
    ],
    [
      'what could not be done is due as before',
      'relief-valve',
      [done('relief-valve', '2025-05-20'), done('relief-valve', '2026-05-02', 'not-done')],
      '2026-05-20',
      'due',
    ],
    ['frost: on its day', 'freeze', [], '2026-10-01', 'later'],
    [
      'frost, known for years and never written down: not late since the first of them',
      'freeze',
      [],
      '2026-10-01',
      'later',
      '2020-01-01',
    ],
    ['frost, done in time: next year', 'freeze', [done('freeze', '2025-09-20')], '2026-10-01', 'later'],
    ['frost, done late: the next autumn', 'freeze', [done('freeze', '2025-11-15')], '2026-10-01', 'later'],
    ['the well cap each spring', 'well-cap', [done('well-cap', '2026-04-20')], '2027-04-01', 'later'],
    ['water a year after the sample', 'water-test', [tested('2026-02-01', CLEAN)], '2027-02-01', 'later'],
    [
      'water after a flood, the same day',
      'water-test',
      [
        tested('2026-02-01', CLEAN),
        entry('note', '2026-05-08', { text: 'Creek over the yard', event: 'flood' }),
      ],
      '2026-05-08',
      'overdue',
    ],
    [
      'a sample on the day of the flood answers it',
      'water-test',
      [entry('note', '2026-05-08', { text: 'Creek', event: 'flood' }), tested('2026-05-08', CLEAN)],
      '2027-05-08',
      'later',
    ],
    [
      'water two weeks after disinfection',
      'water-test',
      [tested('2026-02-01', CLEAN), entry('note', '2026-05-08', { text: 'Shocked', event: 'disinfected' })],
      '2026-05-22',
      'due',
    ],
    [
      'an ordinary note calls for nothing',
      'water-test',
      [tested('2026-02-01', CLEAN), entry('note', '2026-05-08', { text: 'The key hangs in the barn' })],
      '2027-02-01',
      'later',
    ],
    [
      'water after work',
      'water-test',
      [tested('2026-02-01', CLEAN), entry('work', '2026-05-04', { done: 'New pump' })],
      '2026-05-04',
      'overdue',
    ],
    [
      'work on sensors alone opens no water',
      'water-test',
      [tested('2026-02-01', CLEAN), entry('work', '2026-05-04', { done: 'New clamp', touched: ['sensors'] })],
      '2027-02-01',
      'later',
    ],
    [
      'bacteria: two weeks after the sample',
      'water-test',
      [
        tested('2026-05-04', [
          ['Total coliform', 'present'],
          ['Nitrate', '2', 'mg/L as N'],
        ]),
      ],
      '2026-05-18',
      'due',
    ],
    [
      'nitrate at half the limit: half a year',
      'water-test',
      [
        tested('2026-05-04', [
          ['Total coliform', 'absent'],
          ['Nitrate', '6', 'mg/L as N'],
        ]),
      ],
      '2026-11-02',
      'later',
    ],
    [
      'coliform left out last time: a year after it was looked for',
      'water-test',
      [tested('2025-08-01', CLEAN), tested('2026-02-01', [['Nitrate', '2', 'mg/L as N']])],
      '2026-08-01',
      'later',
    ],
    [
      'coliform never looked for: a month after the test',
      'water-test',
      [tested('2026-05-01', [['Nitrate', '2', 'mg/L as N']])],
      '2026-05-31',
      'due',
    ],
    [
      'bacteria that the next test did not look for again still ask',
      'water-test',
      [
        tested('2026-03-01', [
          ['E. coli', 'present'],
          ['Total coliform', 'absent'],
        ]),
        tested('2026-05-01', CLEAN),
      ],
      '2026-05-02',
      'overdue',
    ],
  ])('%s', (_, check, entries, on, state, first = '2026-05-01') => {
    const firstMs = Date.parse(`${first}T18:00:00Z`);
    expect(dueOf(check, entries, { firstSeenMs: firstMs })).toMatchObject({ dueDate: on, state });
  });

  function planFrom(on: string, everyDays: number): Entry[] {
    return [entry('check-plan', on, { check: 'precharge', everyDays })];
  }

  test('each says why', () => {
    const after = dueOf('water-test', [
      tested('2026-02-01', CLEAN),
      entry('note', '2026-05-08', { text: 'Creek', event: 'flood' }),
    ]);
    expect(after.reasons).toEqual(['Flood on 2026-05-08.']);
    expect(after.cautions).toContain('flood');
    expect(dueOf('precharge', [done('precharge', '2025-09-01')]).reasons).toEqual([
      'Yearly; last done on 2025-09-01.',
    ]);
  });

  test('an old pump on a new card does not make the first test years overdue', () => {
    const card = cardOf({ pump: { installed: '2019-05-14' } });
    expect(dueOf('water-test', [], { card }).state).toBe('not-recorded');
  });

  test('a pump put in since the last test calls for one', () => {
    const card = cardOf({ pump: { installed: '2026-04-14' } });
    expect(dueOf('water-test', [tested('2026-02-01', CLEAN)], { card })).toMatchObject({
      dueDate: '2026-04-14',
      state: 'overdue',
    });
  });

  test('a visit that changed a part calls for a water test, and one that changed none does not', () => {
    const visit = (newBaseline: boolean) => ({
      kind: 'visit-closed',
      atMs: Date.parse('2026-05-05T18:00:00Z'),
      well: 'orchard',
      newBaseline,
    });
    expect(dueOf('water-test', [tested('2026-02-01', CLEAN)], { acts: [visit(true)] }).dueDate).toBe(
      '2026-05-05',
    );
    expect(dueOf('water-test', [tested('2026-02-01', CLEAN)], { acts: [visit(false)] }).dueDate).toBe(
      '2027-02-01',
    );
  });

  test('a calibrated node of this well counts, and another one does not', () => {
    const act = (node: string) => ({ kind: 'calibrated', atMs: Date.parse('2026-03-01T18:00:00Z'), node });
    expect(dueOf('node-calibration', [], { acts: [act('orchard')] }).dueDate).toBe('2027-03-01');
    expect(dueOf('node-calibration', [], { acts: [act('barn')] }).state).toBe('not-recorded');
  });

  test('an alarm of the tank asks for its precharge now, until it was looked at', () => {
    const standing = [{ alarm: 'tank-air-lost', sinceMs: Date.parse('2026-05-07T18:00:00Z') }];
    expect(dueOf('precharge', [done('precharge', '2026-01-01')], { activeAlarms: standing })).toMatchObject({
      dueDate: '2026-05-07',
      state: 'overdue',
    });
    expect(dueOf('precharge', [done('precharge', '2026-05-08')], { activeAlarms: standing }).dueDate).toBe(
      '2027-05-08',
    );
  });

  test('the day is the well’s own, not the server’s', () => {
    const late = Date.parse('2026-05-11T03:00:00Z');
    expect(dueOf('precharge', [done('precharge', '2025-05-10')], { nowMs: late }).state).toBe('due');
    const card = cardOf({ timeZone: 'Pacific/Auckland' });
    expect(dueOf('precharge', [done('precharge', '2025-05-10')], { nowMs: late, card }).last?.date).toBe(
      '2025-05-11',
    );
  });
});

describe('what nobody wrote down', () => {
  const struck = (one: Entry): Entry[] => [one, entry('struck', '2026-05-03', {}, { replaces: one.id })];

  test.each<[what: string, check: string, entries: Entry[]]>([
    ['never', 'precharge', []],
    ['the well cap does not wait for spring', 'well-cap', []],
    ['what was struck out does not count', 'relief-valve', struck(done('relief-valve', '2026-05-02'))],
    ['what could not be done', 'relief-valve', [done('relief-valve', '2026-05-02', 'not-done')]],
    ['another well’s day of the year is no last time', 'water-test', [done('freeze', '2026-05-02')]],
  ])('%s: it has no date, is not overdue, and a day is proposed for it', (_, check, entries) => {
    for (const nowMs of [NOW, NOW + 400 * DAY_MS]) {
      const found = dueOf(check, entries, { nowMs });
      expect(found).toMatchObject({
        state: 'not-recorded',
        reasons: ['No recorded date.'],
      });
      expect(found.dueDate).toBeUndefined();
      expect(found.proposedDate! >= localDate(nowMs, 'America/Denver')).toBe(true);
    }
  });

  test('all of a well is proposed for one day, so that one visit catches up on it', () => {
    const proposed = dueChecks(inputOf([])).flatMap(({ proposedDate }) => proposedDate ?? []);
    expect(proposed.length).toBeGreaterThan(4);
    expect(new Set(proposed).size).toBe(1);
    // First heard of on 1 May: the week from the Monday after a week.
    expect(proposed[0]! >= '2026-05-11' && proposed[0]! <= '2026-05-15').toBe(true);
  });

  test('a flood asks by its day whatever nobody wrote down', () => {
    expect(
      dueOf('water-test', [entry('note', '2026-05-08', { text: 'Creek', event: 'flood' })]),
    ).toMatchObject({ dueDate: '2026-05-08', state: 'overdue', reasons: ['Flood on 2026-05-08.'] });
  });
});

describe('a well that stands still', () => {
  const act = (kind: string, on: string, until?: string): ActSummary => ({
    kind,
    well: 'orchard',
    atMs: Date.parse(`${on}T18:00:00Z`),
    // The midnight at the end of that day, in Denver.
    ...(until !== undefined && { untilMs: Date.parse(`${until}T06:00:00Z`) + DAY_MS }),
  });
  /** Laid up over the last winter, from 3 November to 15 April; and now, without a known end. */
  const WINTER = [act('laid-up', '2025-11-03', '2026-04-15')];
  const NOW_ON = [act('laid-up', '2026-05-04')];
  const UNTIL_JUNE = [act('laid-up', '2026-05-04', '2026-06-10')];

  test.each<
    [
      what: string,
      check: string,
      entries: Entry[],
      acts: ActSummary[],
      on: string | undefined,
      state: string,
      reasons: string,
    ]
  >([
    [
      'what falls due meanwhile is due as it comes back',
      'precharge',
      [done('precharge', '2025-05-20')],
      UNTIL_JUNE,
      '2026-06-11',
      'later',
      'Laid up until 2026-06-10: on hold until then.',
    ],
    [
      'so is what was late before, and that is said',
      'precharge',
      [done('precharge', '2025-04-20')],
      UNTIL_JUNE,
      '2026-06-11',
      'later',
      'Laid up until 2026-06-10: on hold until then. Yearly; last done on 2025-04-20. It was already due on 2026-04-20.',
    ],
    [
      'what falls due after its end keeps its day',
      'precharge',
      [done('precharge', '2025-09-01')],
      UNTIL_JUNE,
      '2026-09-01',
      'later',
      'Yearly; last done on 2025-09-01.',
    ],
    [
      'without an end it waits',
      'relief-valve',
      [done('relief-valve', '2025-05-09')],
      NOW_ON,
      undefined,
      'on-hold',
      'Laid up since 2026-05-04, with no end date: on hold. Yearly; last done on 2025-05-09.',
    ],
    [
      'out of service it waits too',
      'pressure-gauge',
      [done('pressure-gauge', '2025-05-09')],
      [act('out-of-service', '2026-05-04')],
      undefined,
      'on-hold',
      'Out of service since 2026-05-04',
    ],
    [
      'put back, it does not',
      'relief-valve',
      [done('relief-valve', '2025-05-09')],
      [...NOW_ON, act('back-in-service', '2026-05-06')],
      '2026-05-09',
      'overdue',
      'Yearly',
    ],
    ['what nobody wrote down waits too', 'precharge', [], NOW_ON, undefined, 'on-hold', 'No recorded date.'],
    [
      'one of their own waits',
      'own-trough',
      [
        entry('check-plan', '2026-04-02', { check: 'own-trough', title: 'Trough', everyDays: 14 }),
        done('own-trough', '2026-05-01'),
      ],
      UNTIL_JUNE,
      '2026-06-11',
      'later',
      'on hold until then',
    ],
    [
      'a day that somebody set meanwhile holds',
      'relief-valve',
      [
        done('relief-valve', '2025-05-09'),
        entry('check-plan', '2026-05-06', { check: 'relief-valve', next: '2026-05-20' }),
      ],
      NOW_ON,
      '2026-05-20',
      'due',
      'A person set the date.',
    ],
    [
      'a flood waits, and is not forgotten',
      'water-test',
      [tested('2026-02-01', CLEAN), entry('note', '2026-05-08', { text: 'Creek', event: 'flood' })],
      NOW_ON,
      undefined,
      'on-hold',
      'Flood on 2026-05-08.',
    ],
    [
      'the cap is looked at from outside',
      'well-cap',
      [done('well-cap', '2025-05-20')],
      NOW_ON,
      '2026-04-01',
      'overdue',
      'Yearly; last done on 2025-05-20.',
    ],
    [
      'what fell due in the winter is due on the day it came back',
      'precharge',
      [done('precharge', '2025-02-01')],
      WINTER,
      '2026-04-16',
      'overdue',
      'The well was out of use until 2026-04-16.',
    ],
    [
      'done since, it comes round as always',
      'precharge',
      [done('precharge', '2025-02-01'), done('precharge', '2026-04-20')],
      WINTER,
      '2027-04-20',
      'later',
      'Yearly',
    ],
    [
      'after a long rest the water is tested',
      'water-test',
      [tested('2025-10-20', CLEAN)],
      WINTER,
      '2026-04-16',
      'overdue',
      'The well was out of use from 2025-11-03 to 2026-04-15. Flush it and test the water before anybody drinks it.',
    ],
    [
      'before it comes back that stands already',
      'water-test',
      [tested('2026-04-20', CLEAN)],
      UNTIL_JUNE,
      '2026-06-11',
      'later',
      'The well is out of use from 2026-05-04 to 2026-06-10',
    ],
    [
      'a sample at the start is that test',
      'water-test',
      [tested('2026-04-10', CLEAN)],
      WINTER,
      '2027-04-10',
      'later',
      'Yearly',
    ],
    [
      'a short rest calls for none',
      'water-test',
      [tested('2026-04-01', CLEAN)],
      [act('laid-up', '2026-04-20', '2026-05-02')],
      '2027-04-01',
      'later',
      'Yearly',
    ],
    [
      'and moves nothing that was late before',
      'precharge',
      [done('precharge', '2025-04-01')],
      [act('laid-up', '2026-04-20', '2026-05-02')],
      '2026-04-01',
      'overdue',
      'Yearly',
    ],
    [
      'over the frost: made ready when it is laid up',
      'freeze',
      [done('freeze', '2025-09-20')],
      [act('laid-up', '2026-05-04', '2027-04-15')],
      '2026-05-04',
      'overdue',
      'Out of use since 2026-05-04 and through the cold',
    ],
    [
      'laid up in the cold, and nobody wrote that it was ready',
      'freeze',
      [],
      [act('laid-up', '2025-12-10', '2026-06-10')],
      '2025-12-10',
      'overdue',
      'Out of use since 2025-12-10 and through the cold',
    ],
    [
      'laid up in the cold, and ready for it',
      'freeze',
      [done('freeze', '2025-09-20')],
      [act('laid-up', '2025-12-10', '2026-06-10')],
      '2026-10-01',
      'later',
      'Yearly',
    ],
    [
      'was made ready just before',
      'freeze',
      [done('freeze', '2026-04-28')],
      [act('laid-up', '2026-05-04', '2027-04-15')],
      '2027-10-01',
      'later',
      '',
    ],
    [
      'back before the frost: on its day',
      'freeze',
      [done('freeze', '2025-09-20')],
      UNTIL_JUNE,
      '2026-10-01',
      'later',
      'Yearly',
    ],
  ])('%s', (_, check, entries, acts, on, state, because) => {
    const found = dueOf(check, entries, { acts, firstSeenMs: Date.parse('2020-01-01T18:00:00Z') });
    expect({ on: found.dueDate, state: found.state }).toEqual({ on, state });
    expect(found.reasons.join(' ')).toContain(because);
  });

  test('only what waits says for which rest', () => {
    const of = (check: string, acts: ActSummary[]) => dueOf(check, [], { acts }).onHold;
    expect(of('precharge', UNTIL_JUNE)).toMatchObject({ is: 'laid-up', untilDate: '2026-06-10' });
    expect(of('well-cap', UNTIL_JUNE)).toBeUndefined();
    expect(of('precharge', WINTER)).toBeUndefined();
  });
});

describe('plans of people', () => {
  const plan = (on: string, body: Record<string, unknown>): Entry => entry('check-plan', on, body);

  test.each<[what: string, check: string, entries: Entry[], on: string | undefined, state: string]>([
    [
      'another interval',
      'precharge',
      [done('precharge', '2026-03-01'), plan('2026-03-02', { check: 'precharge', everyDays: 90 })],
      '2026-05-30',
      'due',
    ],
    [
      'another day of the year',
      'freeze',
      [plan('2026-05-02', { check: 'freeze', on: '09-10' })],
      '2026-09-10',
      'later',
    ],
    [
      'the next time by hand',
      'precharge',
      [done('precharge', '2026-03-01'), plan('2026-05-02', { check: 'precharge', next: '2026-05-20' })],
      '2026-05-20',
      'due',
    ],
    [
      'done since: the round goes on',
      'precharge',
      [plan('2026-05-02', { check: 'precharge', next: '2026-05-20' }), done('precharge', '2026-05-09')],
      '2027-05-09',
      'later',
    ],
    ['off', 'freeze', [plan('2026-05-02', { check: 'freeze', off: true })], undefined, 'off'],
    [
      'the last plan holds',
      'freeze',
      [
        plan('2026-05-02', { check: 'freeze', off: true }),
        plan('2026-05-03', { check: 'freeze', on: '11-01' }),
      ],
      '2026-11-01',
      'later',
    ],
    [
      'one of their own',
      'own-trough',
      [
        plan('2026-05-02', { check: 'own-trough', title: 'Scrub the trough', everyDays: 14 }),
        done('own-trough', '2026-05-04'),
      ],
      '2026-05-18',
      'due',
    ],
    [
      'once and no more',
      'own-rope',
      [
        plan('2026-05-02', { check: 'own-rope', title: 'Cut the safety rope free', next: '2026-05-05' }),
        done('own-rope', '2026-05-05'),
      ],
      undefined,
      'later',
    ],
    [
      'a plan makes needed what is not by rule',
      'stock-water',
      [plan('2026-05-02', { check: 'stock-water', everyDays: 30 })],
      '2026-06-01',
      'due',
    ],
  ])('%s', (_, check, entries, on, state) => {
    const found = dueOf(check, entries);
    expect({ on: found.dueDate, state: found.state }).toEqual({ on, state });
  });

  test('an own check that was put off is gone', () => {
    const all = dueChecks(inputOf([plan('2026-05-02', { check: 'own-trough', title: 'Trough', off: true })]));
    expect(all.map(({ check }) => check)).not.toContain('own-trough');
  });
});

describe('where a check makes sense', () => {
  test.each<[string, Record<string, unknown>, Parameters<typeof isCheckNeeded>[0], boolean]>([
    ['a plain tank has no precharge', { tank: { kind: 'plain', volume: '80 gal' } }, 'precharge', false],
    ['a captive-air tank has', {}, 'precharge', true],
    [
      'a float fills a store',
      { control: 'float', switch: undefined, tank: undefined },
      'relief-valve',
      false,
    ],
    ['stock drinks', { use: 'stock' }, 'stock-water', true],
    ['a house has no stock', { use: 'house' }, 'stock-water', false],
    ['irrigation alone is not drunk', { use: 'irrigation' }, 'water-test', false],
    ['irrigation beside the house is', { use: ['irrigation', 'house'] }, 'water-test', true],
    ['no frost in the tropics', { timeZone: 'Pacific/Honolulu' }, 'freeze', false],
  ])('%s', (_, more, kind, needed) => {
    const card = cardOf(Object.fromEntries(Object.entries({ ...more })));
    const plain = more['control'] === 'float' ? { ...card, tank: undefined, switch: {} } : card;
    const { tank, ...rest } = plain;
    expect(
      'needed' in isCheckNeeded(kind, { card: tank ? { ...rest, tank } : rest, nodes: ['orchard'] }),
    ).toBe(needed);
  });

  test('sensors are compared only where there are some', () => {
    expect(isCheckNeeded('node-calibration', { card: cardOf(), nodes: [] })).toHaveProperty('not');
  });

  test.each([
    ['Australia/Perth', true, '2026-04-01'],
    ['America/Santiago', true, '2026-04-01'],
    ['Africa/Johannesburg', true, '2026-04-01'],
    ['America/Denver', false, '2026-10-01'],
    ['UTC', false, '2026-10-01'],
  ])('frost in %s', (timeZone, southern, on) => {
    expect(isSouthern(timeZone)).toBe(southern);
    const firstMs = Date.parse('2026-03-10T18:00:00Z');
    expect(dueOf('freeze', [], { card: cardOf({ timeZone }), firstSeenMs: firstMs }).dueDate).toBe(on);
  });
});

describe('frost by what was measured on the site', () => {
  test('is made ready for a month before it grew cold last time, and says so', () => {
    const cold = { is: 'seasonal', firstColdDate: '2025-09-20', prepareByDay: '08-21' } as const;
    const found = dueOf('freeze', [], { coldSeason: cold });
    expect(found.dueDate).toBe('2026-08-21');
    expect(found.reasons[0]).toContain('first cold of the season on 2025-09-20');
  });

  test('a place that never grew cold in a year needs none', () => {
    const found = dueOf('freeze', [], { coldSeason: { is: 'never', minC: 7 } });
    expect(found).toMatchObject({ state: 'not-needed', reasons: [expect.stringContaining('40 F')] });
  });

  test('a plan of a person rules over both', () => {
    const cold = { is: 'seasonal', firstColdDate: '2025-09-20', prepareByDay: '08-21' } as const;
    const plan = entry('check-plan', '2026-05-02', { check: 'freeze', on: '11-01' });
    expect(dueOf('freeze', [plan], { coldSeason: cold }).dueDate).toBe('2026-11-01');
  });
});

describe('prechargeTarget', () => {
  // 2 psi below cut-in: Water Systems Council, "Pressure Tanks", 2007.
  test.each([
    [30, 28],
    [40, 38],
    [50, 48],
  ])('a cut-in of %d psi wants %d psi', (cutInPsi, psi) => {
    const target = prechargeTarget(cardOf(), kpaFromPsi(cutInPsi));
    expect(target).toMatchObject({ is: 'known', from: 'measured' });
    expect(target.is === 'known' && psiFromKpa(target.kpa)).toBeCloseTo(psi, 6);
  });

  test('what is measured goes before the card', () => {
    expect(prechargeTarget(cardOf(), kpaFromPsi(41))).toMatchObject({
      kpa: kpaFromPsi(39),
      from: 'measured',
    });
    expect(prechargeTarget(cardOf(), undefined)).toMatchObject({ from: 'card' });
  });

  test.each<[string, Record<string, unknown>, string]>([
    ['a drive', { control: 'variable-speed' }, 'instructions'],
    ['nothing known', { switch: {} }, 'neither measured nor on the card'],
  ])('%s has none', (_, more, why) => {
    expect(prechargeTarget(cardOf(more), undefined)).toMatchObject({
      is: 'unknown',
      reason: expect.stringContaining(why),
    });
  });
});

describe('a well that is new here', () => {
  test.each<[what: string, firstOn: string, today: string, on: string | undefined, state: string]>([
    ['before the day of frost: on that day', '2026-09-20', '2026-09-21', '2026-10-01', 'due'],
    ['on the day', '2026-10-01', '2026-10-01', '2026-10-01', 'due'],
    [
      'two days after it: with what is caught up on, not in a year',
      '2026-10-03',
      '2026-10-03',
      undefined,
      'not-recorded',
    ],
    ['in the middle of winter: so too', '2027-01-10', '2027-01-12', undefined, 'not-recorded'],
    ['in winter, looked at in spring: the season is over', '2027-01-10', '2027-04-10', '2027-10-01', 'later'],
    ['at the end of winter: in autumn', '2027-03-05', '2027-03-05', '2027-10-01', 'later'],
  ])('is made ready for frost: %s', (_what, firstOn, today, on, state) => {
    const at = (day: string): number => Date.parse(`${day}T18:00:00Z`);
    const found = dueOf('freeze', [], { firstSeenMs: at(firstOn), nowMs: at(today) });
    expect([found.dueDate, found.state]).toEqual([on, state]);
    expect(found.proposedDate === undefined).toBe(on !== undefined);
  });
});
