import { describe, expect, test } from 'vitest';
import type { AlarmEvent } from '../../../shared/api/events.ts';
import {
  decideNotices,
  type AlarmChange,
  type Decision,
  type NoticeContext,
} from '../../../src/core/notify/decide-notices.ts';
import { alarm, NOW_MS, person, raised, siteSilent } from './support.ts';

const TELLING: NoticeContext = {
  recipients: [person('anna')],
  nowMs: NOW_MS,
  units: 'us',
  timeZone: 'America/Denver',
};

function decide(change: AlarmChange, more: Partial<NoticeContext> = {}): string[] {
  return decideNotices(change, { ...TELLING, ...more }).map(shown);
}

function shown(decision: Decision): string {
  return 'none' in decision
    ? `${decision.to}: no, ${decision.reason}`
    : `${decision.to} by ${decision.channel}: ${decision.row.what}, ${decision.reason}`;
}

const rise = (event: AlarmEvent): AlarmChange => ({ after: alarm(event), event });
const change = (was: Partial<AlarmEvent>, is: Partial<AlarmEvent>): AlarmChange => {
  const event = raised({ state: 'changed', ...is });
  return { before: alarm(raised(was)), after: alarm(event), event };
};
const end = (state: 'cleared' | 'withdrawn', was: Partial<AlarmEvent> = {}): AlarmChange => {
  const event: AlarmEvent = {
    event: 'alarm',
    well: 'north-paddock',
    pump: 'p1',
    alarm: 'short-cycling',
    state,
    at: '2026-04-02T18:00:00.000Z',
  };
  return { before: alarm(raised(was)), after: alarm(raised(was), { clearedMs: NOW_MS }), event };
};
/** It had been told as over. */
const ended = (what: AlarmChange): AlarmChange => ({
  ...what,
  before: { ...what.before!, clearedMs: NOW_MS - 1 },
});
const LEAK = [{ cause: 'leak' as const, weight: 1 }];

describe('decideNotices: who is told and why', () => {
  test.each<[string, AlarmChange, Partial<NoticeContext>, string[]]>([
    [
      'raised: who hears of it',
      rise(raised()),
      {},
      ['anna by mail:anna@farm.example: raised, the settings notify anna of priority soon'],
    ],
    [
      'raised: each of the ways, each person for themselves',
      rise(raised()),
      {
        recipients: [
          person('anna', { channels: ['mail:a@farm.example', 'mail:b@farm.example'] }),
          person('siren', { priorities: ['now'], channels: ['mqtt'] }),
          { name: 'office', priorities: ['soon'], channels: ['webhook'] },
          { name: 'lamp', priorities: ['soon'], channels: ['command'] },
        ],
      },
      [
        'anna by mail:a@farm.example: raised, the settings notify anna of priority soon',
        'anna by mail:b@farm.example: raised, the settings notify anna of priority soon',
        'siren: no, the settings do not notify siren of priority soon',
        'office by webhook: raised, the settings notify office of priority soon',
        'lamp by command: raised, the settings notify lamp of priority soon',
      ],
    ],
    [
      'raised: not of other wells',
      rise(raised()),
      { recipients: [person('bo', { wells: ['house'] })] },
      ['bo: no, the settings notify bo of other wells only'],
    ],
    [
      'raised: a silent site concerns everybody',
      rise(siteSilent()),
      { recipients: [person('bo', { wells: ['house'] })] },
      ['bo by mail:bo@farm.example: raised, the settings notify bo of priority soon'],
    ],
    [
      'raised: a note is not told to who hears now and soon',
      rise(raised({ priority: 'note' })),
      {},
      ['anna: no, the settings do not notify anna of priority note'],
    ],
    [
      'raised: shelved',
      { after: alarm(raised(), { shelvedUntilMs: NOW_MS + 1 }), event: raised() },
      {},
      ['anna: no, the alarm is shelved'],
    ],
    [
      'raised: no longer shelved',
      { after: alarm(raised(), { shelvedUntilMs: NOW_MS }), event: raised() },
      {},
      ['anna by mail:anna@farm.example: raised, the settings notify anna of priority soon'],
    ],
    [
      'raised: over already, out of a backlog',
      { after: alarm(raised(), { clearedMs: NOW_MS }), event: raised() },
      {},
      ['anna: no, the alarm cleared before anybody was notified'],
    ],
    [
      'raised: withdrawn already',
      { after: alarm(raised(), { withdrawnMs: 1 }), event: raised() },
      {},
      ['anna: no, late readings withdrew the alarm'],
    ],
    [
      'changed: it rises',
      change({}, { priority: 'now' }),
      {},
      ['anna by mail:anna@farm.example: changed, its priority rose from soon to now'],
    ],
    [
      'changed: now already, and from here on minutes matter',
      change(
        { alarm: 'long-run', priority: 'now' },
        { alarm: 'long-run', priority: 'now', evidence: { switch: 'should be open' } },
      ),
      {},
      ['anna by mail:anna@farm.example: changed, minutes matter now'],
    ],
    [
      'changed: it rises to what only the siren hears of',
      change({}, { priority: 'now' }),
      { recipients: [person('siren', { priorities: ['now'] })] },
      ['siren by mail:siren@farm.example: changed, its priority rose from soon to now'],
    ],
    [
      'changed: it rises from a note that nobody heard of',
      change({ priority: 'note' }, { priority: 'soon' }),
      {},
      ['anna by mail:anna@farm.example: changed, its priority rose from note to soon'],
    ],
    [
      'changed: who was told of it is told of the rise',
      change({ priority: 'soon' }, { priority: 'now' }),
      { recipients: [person('desk', { priorities: ['soon'] })] },
      ['desk by mail:desk@farm.example: changed, its priority rose from soon to now'],
    ],
    [
      'changed: another cause, days to act',
      change({}, { causes: LEAK }),
      {},
      ['anna: no, another cause is now the most likely, and the alarm does not call for action now'],
    ],
    [
      'changed: another cause, to act on now',
      change({ priority: 'now' }, { priority: 'now', causes: LEAK }),
      {},
      [
        'anna by mail:anna@farm.example: changed, another cause is now the most likely, and the alarm calls for action now',
      ],
    ],
    [
      'changed: only figures',
      change({ priority: 'now' }, { priority: 'now' }),
      {},
      ['anna: no, nothing changed that calls for another action'],
    ],
    [
      'told as over, and not over: who was told',
      ended(change({}, {})),
      {},
      [
        'anna by mail:anna@farm.example: changed, anna was notified that it cleared, and late readings show it active',
      ],
    ],
    [
      'told as over, and not over: who was not told',
      ended(change({}, {})),
      { wasNotified: () => false },
      ['anna: no, nothing changed that calls for another action'],
    ],
    [
      'cleared: who was told',
      end('cleared'),
      {},
      ['anna by mail:anna@farm.example: cleared, anna was notified of it'],
    ],
    [
      'cleared: who was not told',
      end('cleared', { priority: 'note' }),
      {},
      ['anna: no, anna was not notified of it'],
    ],
    [
      'cleared: a note',
      end('cleared', { priority: 'note' }),
      { recipients: [person('cy', { priorities: ['note'] })] },
      ['cy: no, the end of an alarm of priority note is not reported'],
    ],
    [
      'withdrawn: who was told',
      end('withdrawn'),
      {},
      ['anna by mail:anna@farm.example: withdrawn, anna was notified of it'],
    ],
    [
      'withdrawn: a note too',
      end('withdrawn', { priority: 'note' }),
      { recipients: [person('cy', { priorities: ['note'] })] },
      ['cy by mail:cy@farm.example: withdrawn, cy was notified of it'],
    ],
    [
      'cleared: what is known of who was told rules',
      end('cleared'),
      { wasNotified: () => false },
      ['anna: no, anna was not notified of it'],
    ],
    [
      'withdrawn: told although the settings changed since',
      end('withdrawn', { priority: 'note' }),
      { wasNotified: () => true },
      ['anna by mail:anna@farm.example: withdrawn, anna was notified of it'],
    ],
    ['nobody in the settings', rise(raised()), { recipients: [] }, []],
  ])('%s', (_name, what, more, expected) => {
    expect(decide(what, more)).toEqual(expected);
  });
});

describe('decideNotices: the row', () => {
  const rowsOf = (what: AlarmChange, more: Partial<NoticeContext> = {}): string[] =>
    decideNotices(what, { ...TELLING, ...more }).flatMap((one) => ('row' in one ? [one.row.id] : []));

  test('is complete and due at once', () => {
    const [decision] = decideNotices(rise(raised()), TELLING);
    expect(decision).toMatchObject({
      row: {
        id: 'north-paddock/p1/short-cycling/1775149320000/raised/anna/mail:anna@farm.example',
        alarmId: 'north-paddock/p1/short-cycling/1775149320000',
        to: 'anna',
        what: 'raised',
        dueMs: NOW_MS,
        createdMs: NOW_MS,
        tries: 0,
        state: 'due',
        body: {
          channel: 'mail:anna@farm.example',
          reason: 'the settings notify anna of priority soon',
          event: raised(),
        },
      },
    });
  });

  test('telling the same thing to the same person later is the same row', () => {
    expect(rowsOf(rise(raised()))).toEqual(rowsOf(rise(raised()), { nowMs: NOW_MS + 5000 }));
    expect(rowsOf(change({}, { priority: 'now' }))).toEqual(
      rowsOf(change({ causes: LEAK }, { priority: 'now' })),
    );
  });

  test('a second change of the likeliest cause is the same row, a rise is another', () => {
    const cause = rowsOf(change({ priority: 'now' }, { priority: 'now', causes: LEAK }));
    expect(rowsOf(change({ priority: 'now', causes: LEAK }, { priority: 'now' }))).toEqual(cause);
    expect(rowsOf(change({}, { priority: 'now' }))).not.toEqual(cause);
  });

  test('different tellings, people and ways are different rows', () => {
    const recipients = [
      person('anna', { channels: ['mail:a@farm.example', 'mail:b@farm.example'] }),
      person('bo'),
    ];
    const ids = [rise(raised()), change({}, { priority: 'now' }), end('cleared'), end('withdrawn')].flatMap(
      (what) => rowsOf(what, { recipients }),
    );
    expect(new Set(ids).size).toBe(12);
  });

  test('a cleared row carries what was raised, for machines', () => {
    const [decision] = decideNotices(end('cleared'), TELLING);
    expect(decision).toMatchObject({
      row: {
        body: {
          event: {
            state: 'cleared',
            at: '2026-04-02T18:00:00.000Z',
            priority: 'soon',
            evidence: { starts: 14 },
          },
        },
      },
    });
  });
});
