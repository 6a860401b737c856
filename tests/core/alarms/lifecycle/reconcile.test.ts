/**
 * After late readings: what was told stays told, what was wrong is withdrawn, what is new is
 * raised.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../../../shared/api/events.ts';
import { rerunAlarms, reconcile, type RerunAlarm } from '../../../../src/core/alarms/lifecycle/reconcile.ts';
import {
  priorityRank,
  knownAlarmId,
  type KnownAlarm,
} from '../../../../src/core/alarms/lifecycle/known-alarm.ts';

const MIN = 60_000;
const T0 = Date.UTC(2026, 2, 2);
const segment = { fromMs: T0, toMs: T0 + 1000 * MIN };

type Plan = [alarm: string, from: number, to: number | null, priority?: 'now' | 'soon' | 'note'];

function line(
  alarm: string,
  state: AlarmEvent['state'],
  at: number,
  priority: string,
  since = at,
): AlarmEvent {
  return {
    event: 'alarm',
    well: 'w',
    pump: 'p1',
    alarm: alarm as 'leak',
    state,
    at: new Date(T0 + at * MIN).toISOString(),
    ...(state !== 'cleared' && {
      since: new Date(T0 + since * MIN).toISOString(),
      priority: priority as 'now',
      why: '',
      evidence: {},
      causes: [],
    }),
  };
}

function made([alarm, from, to, priority = 'soon']: Plan): RerunAlarm {
  return {
    well: 'w',
    pump: 'p1',
    alarm,
    sinceMs: T0 + from * MIN,
    raisedMs: T0 + from * MIN,
    ...(to !== null && { clearedMs: T0 + to * MIN }),
    event: line(alarm, 'raised', from, priority),
  };
}

const reported = (plan: Plan): KnownAlarm => {
  const alarm = made(plan);
  return { id: knownAlarmId(alarm), ...alarm };
};

const words = (before: Plan[], after: Plan[]): string[] =>
  reconcile(before.map(reported), after.map(made), segment).map(
    (change) =>
      `${change.what} ${change.alarm.id
        .split('/')
        .slice(2)
        .join('/')
        .replace(/\d{13}/, (ms) => String((Number(ms) - T0) / MIN))}`,
  );

describe('reconcile', () => {
  it.each<[string, Plan[], Plan[], string[]]>([
    ['the same again', [['leak', 10, 50]], [['leak', 10, 50]], ['unchanged leak/10']],
    [
      'it began earlier than was thought: the same alarm, its id kept',
      [['leak', 10, 50]],
      [['leak', 5, 50]],
      ['unchanged leak/10'],
    ],
    ['it was not there', [['leak', 10, 50]], [], ['withdrawn leak/10']],
    ['nobody heard of it', [], [['leak', 10, 50]], ['raised leak/10']],
    [
      'more urgent than was told',
      [['over-pressure', 10, null, 'soon']],
      [['over-pressure', 10, null, 'now']],
      ['changed over-pressure/10'],
    ],
    [
      'less urgent: told nothing new',
      [['over-pressure', 10, null, 'now']],
      [['over-pressure', 10, null, 'soon']],
      ['unchanged over-pressure/10'],
    ],
    ['told as standing, and over', [['leak', 10, null]], [['leak', 10, 70]], ['cleared leak/10']],
    ['told as over, and it stands', [['leak', 10, 70]], [['leak', 10, null]], ['reopened leak/10']],
    [
      'told as over, and it stands more urgently',
      [['over-pressure', 10, 70, 'soon']],
      [['over-pressure', 10, null, 'now']],
      ['changed over-pressure/10'],
    ],
    [
      'another kind is another alarm',
      [['leak', 10, 50]],
      [['dry-run', 10, 50]],
      ['withdrawn leak/10', 'raised dry-run/10'],
    ],
    [
      'two that do not overlap are two',
      [['leak', 10, 50]],
      [
        ['leak', 10, 50],
        ['leak', 60, 90],
      ],
      ['unchanged leak/10', 'raised leak/60'],
    ],
    [
      'one told, found to be two within it',
      [['leak', 10, 90]],
      [
        ['leak', 10, 40],
        ['leak', 60, 90],
      ],
      ['unchanged leak/10'],
    ],
    [
      'two told, found to be one',
      [
        ['leak', 10, 30],
        ['leak', 60, 90],
      ],
      [['leak', 10, 90]],
      ['unchanged leak/10', 'unchanged leak/60'],
    ],
    [
      'two told, one over and one standing, found to be one: that one goes on',
      [
        ['leak', 10, 30],
        ['leak', 60, null],
      ],
      [['leak', 10, null]],
      ['unchanged leak/60', 'unchanged leak/10'],
    ],
  ])('%s', (_name, before, after, changes) => {
    expect(words(before, after)).toEqual(changes);
  });

  it('an alarm raised before the stretch is not withdrawn by it', () => {
    const old = { ...reported(['leak', 10, null]), raisedMs: T0 - 5 * MIN };
    expect(reconcile([old], [], segment)).toEqual([]);
  });

  it('what was withdrawn stays so, and the same thing found again is raised', () => {
    const old = { ...reported(['leak', 10, 50]), withdrawnMs: T0 + 55 * MIN };
    expect(reconcile([old], [made(['leak', 10, 50])], segment).map((change) => change.what)).toEqual([
      'raised',
    ]);
  });

  const plans = fc.array(
    fc.record({
      kind: fc.constantFrom('leak', 'dry-run'),
      from: fc.integer({ min: 0, max: 900 }),
      long: fc.integer({ min: 1, max: 90 }),
      now: fc.boolean(),
    }),
    { maxLength: 8 },
  );
  /** As the engine makes them: of one kind, one after the other. */
  const inOrder = (raw: { kind: string; from: number; long: number; now: boolean }[]): Plan[] => {
    const ends = new Map<string, number>();
    const found: Plan[] = [];
    for (const { kind, from, long, now } of [...raw].sort((a, b) => a.from - b.from)) {
      if (from <= (ends.get(kind) ?? -1)) continue;
      ends.set(kind, from + long);
      found.push([kind, from, from + long, now ? 'now' : 'soon']);
    }
    return found;
  };
  const apply = (before: KnownAlarm[], after: RerunAlarm[]): KnownAlarm[] => {
    const rows = new Map(before.map((row) => [row.id, row]));
    for (const { alarm: row } of reconcile(before, after, segment)) rows.set(row.id, row);
    return [...rows.values()];
  };

  it('twice is once: reconciling the outcome with the same run changes nothing more', () => {
    fc.assert(
      fc.property(plans, plans, (a, b) => {
        const before = inOrder(a).map(reported);
        const after = inOrder(b).map(made);
        const once = apply(before, after);
        expect(reconcile(once, after, segment).filter((change) => change.what !== 'unchanged')).toEqual([]);
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  it('every alarm of the new run is told, every told one that is not withdrawn was found, and no urgency is lost', () => {
    fc.assert(
      fc.property(plans, plans, (a, b) => {
        const after = inOrder(b).map(made);
        const rows = apply(inOrder(a).map(reported), after);
        const touches = (row: KnownAlarm, one: RerunAlarm): boolean =>
          row.alarm === one.alarm &&
          row.withdrawnMs === undefined &&
          row.sinceMs <= (one.clearedMs ?? Infinity) &&
          (row.clearedMs ?? Infinity) >= one.sinceMs;
        for (const one of after) {
          const mine = rows.filter((row) => touches(row, one));
          expect(mine.length).toBeGreaterThan(0);
          expect(Math.max(...mine.map((row) => priorityRank(row.event)))).toBeGreaterThanOrEqual(
            priorityRank(one.event),
          );
        }
        for (const row of rows)
          if (row.withdrawnMs === undefined) expect(after.some((one) => touches(row, one))).toBe(true);
        expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
      }),
      { seed: 22, numRuns: 300 },
    );
  });
});

describe('madeAlarms', () => {
  it('pairs raised, changed and cleared lines', () => {
    const lines = [
      line('leak', 'raised', 1, 'soon'),
      line('dry-run', 'raised', 2, 'now', 1),
      line('leak', 'changed', 3, 'now', 1),
      line('leak', 'cleared', 5, ''),
      line('leak', 'raised', 9, 'soon'),
    ];
    expect(
      rerunAlarms(lines).map((alarm) => [
        alarm.alarm,
        (alarm.raisedMs - T0) / MIN,
        alarm.clearedMs === undefined ? null : (alarm.clearedMs - T0) / MIN,
        alarm.event.priority,
      ]),
    ).toEqual([
      ['leak', 1, 5, 'now'],
      ['dry-run', 2, null, 'now'],
      ['leak', 9, null, 'soon'],
    ]);
  });
  it('skips the ends of what rose before the stretch', () => {
    expect(rerunAlarms([line('leak', 'cleared', 5, ''), line('leak', 'changed', 6, 'now')])).toEqual([]);
  });
});
