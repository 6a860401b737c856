import { describe, expect, test } from 'vitest';
import { dueChecks, type DueInput } from '../../../src/logbook/due/due.ts';
import { dueEvents, type WellChecks } from '../../../src/logbook/due/due-events.ts';
import { dueGroup } from '../../../src/logbook/due/due-groups.ts';
import type { Entry } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';

const TODAY = '2026-11-26';
const NOW = Date.parse(`${TODAY}T18:00:00Z`);

function wellOf(well: string, wellCount: number, more: Partial<DueInput> = {}): WellChecks {
  const read = readCard({ well, site: 'larch-farm', switch: { cutIn: '40 psi', cutOut: '60 psi' } });
  if ('problem' in read) throw new Error(read.problem);
  const { card } = read;
  const base = {
    entries: [],
    acts: [],
    nodes: [],
    activeAlarms: [],
    firstSeenMs: NOW,
    nowMs: NOW,
    wellCount,
  };
  return {
    card,
    firstActId: `root-${well}`,
    changedMs: NOW,
    today: TODAY,
    checks: dueChecks({ card, ...base, ...more }),
  };
}

const firm = (count: number, more: Partial<DueInput> = {}): WellChecks[] =>
  Array.from({ length: count }, (_, at) => wellOf(`well-${at + 1}`, count, more));

function done(check: string, on: string): Entry {
  const atMs = Date.parse(`${on}T18:00:00Z`);
  return {
    id: `${check} ${on}`,
    well: 'w',
    kind: 'check',
    atMs,
    createdMs: atMs,
    body: { check, outcome: 'right' },
  };
}

describe('dueEvents', () => {
  test('of two hundred wells of which only the frost is written down: an event a well, spread, and one for the frost', () => {
    const events = dueEvents(firm(200, { entries: [done('freeze', '2026-09-20')] }));
    expect(events).toHaveLength(201);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(201);
    const onOneDay = Math.max(
      ...events.map(({ firstDate }) => events.filter((other) => other.firstDate === firstDate).length),
    );
    expect(onOneDay).toBeLessThanOrEqual(8);
    const frost = events.find(({ title }) => title === 'Ready for freezing weather: 200 wells');
    expect(frost).toMatchObject({ firstDate: '2027-10-01', category: 'wells' });
    expect(frost?.text).toMatch(/^well-1 \(larch-farm\), well-10 .* and 100 more\./);
    expect(events[0]).toMatchObject({ category: expect.stringMatching(/^well-\d+$/) });
    expect(events[0]?.title).toMatch(/^Proposed date, none recorded: 5 checks, well-\d+$/);
    expect(events[0]?.text).toContain('This date is a proposal');
    expect(events[0]?.text).toContain(
      'Tank precharge. Target 38 psi (262 kPa), 2 psi (14 kPa) below the cut-in on the card.',
    );
    expect(events[0]?.text).toContain('locked off');
  });

  test('of a few wells each check is an event of its own; what is late lasts through today', () => {
    const events = dueEvents(firm(2, { entries: [done('precharge', '2025-11-01')] }));
    const precharge = events.filter(({ uid }) => uid.startsWith('precharge.'));
    expect(precharge.map(({ uid }) => uid)).toEqual([
      'precharge.well-1.root-well-1.stillwell',
      'precharge.well-2.root-well-2.stillwell',
    ]);
    expect(precharge[0]).toMatchObject({
      firstDate: '2026-11-01',
      lastDate: TODAY,
      title: 'Tank precharge: well-1',
    });
    expect(events.filter(({ uid }) => uid.startsWith('not-recorded.'))[0]?.title).toContain('5 checks');
  });

  test('what is late on many wells is one event, today', () => {
    const wells = firm(8).map((well, at) => ({
      ...well,
      checks: wellOf(`well-${at + 1}`, 8, { entries: [done('precharge', `2025-11-0${at + 1}`)] }).checks,
    }));
    const late = dueEvents(wells).filter(({ uid }) => uid.startsWith('precharge.'));
    expect(late).toMatchObject([
      { firstDate: TODAY, lastDate: TODAY, title: 'Overdue: Tank precharge: 8 wells', category: 'wells' },
    ]);
    expect(late[0]?.text).toContain('well-2 (larch-farm) since 2026-11-02');
  });

  test('a well that stands still, nobody knows until when, has but what goes on', () => {
    const acts = [{ kind: 'laid-up', atMs: NOW - 1, well: 'well-1' }];
    const events = dueEvents([wellOf('well-1', 1, { acts })]);
    expect(new Set(events.map(({ uid }) => uid.split('.')[0]))).toEqual(new Set(['freeze', 'not-recorded']));
    expect(events.find(({ uid }) => uid.startsWith('not-recorded'))?.title).toContain('1 check, well-1');
  });
});

describe('dueGroup', () => {
  const untilOf = (more: Partial<DueInput>, check: string, until: string): string | undefined =>
    dueGroup(
      wellOf('mill', 1, more).checks.find((one) => one.check === check)!,
      until,
    );
  const acts = (untilMs?: number) => [
    { kind: 'laid-up', atMs: NOW - 1, ...(untilMs !== undefined && { untilMs }) },
  ];
  test.each<[what: string, more: Partial<DueInput>, check: string, until: string, group: string | undefined]>(
    [
      ['by its day', { entries: [done('precharge', '2025-12-01')] }, 'precharge', '2026-12-01', 'dated'],
      [
        'later than the list goes',
        { entries: [done('precharge', '2025-12-01')] },
        'precharge',
        '2026-11-30',
        undefined,
      ],
      ['never written, proposed by then', {}, 'precharge', '2026-12-31', 'not-recorded'],
      ['never written, proposed later', {}, 'precharge', '2026-12-01', undefined],
      ['waits without an end', { acts: acts() }, 'precharge', '2099-01-01', 'on-hold'],
      [
        'waits until after the list',
        { acts: acts(NOW + 90 * 86_400_000), entries: [done('precharge', '2025-12-01')] },
        'precharge',
        '2026-12-31',
        'on-hold',
      ],
      [
        'waits until within the list',
        { acts: acts(NOW + 90 * 86_400_000), entries: [done('precharge', '2025-12-01')] },
        'precharge',
        '2027-12-31',
        'dated',
      ],
      ['not needed', {}, 'stock-water', '2099-01-01', undefined],
    ],
  )('%s', (_, more, check, until, group) => expect(untilOf(more, check, until)).toBe(group));
});
