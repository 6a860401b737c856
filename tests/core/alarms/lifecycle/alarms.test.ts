/**
 * From findings to what is told: delays, one fault one alarm, acts of people, and the same output
 * wherever the state is saved.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AlarmEvent } from '../../../../shared/api/events.ts';
import type { Act } from '../../../../src/core/domain/act.ts';
import {
  evaluateAll,
  newAlarms,
  standing,
  standingKinds,
  raiseExternally,
  type AlarmsState,
} from '../../../../src/core/alarms/lifecycle/alarms.ts';
import { notWatchedEvaluation } from '../../../../src/core/alarms/sensing/not-watched.ts';
import type { Scene } from '../../../../src/core/alarms/scene.ts';
import { houseCard, kit, play, T0 } from '../scene-kit.ts';

const WELL = 'north-paddock';

describe('one fault, one alarm', () => {
  it.each<[string, string, string[]]>([
    [
      'contacts that stick: over-pressure, and the long run is its symptom',
      'run 8A 45psi to 60psi x3 | run 8A 72psi x60',
      ['4 min over-pressure raised now switch-contacts-stuck'],
    ],
    [
      'a dead pump: no-start; dry taps and missing habits say nothing more',
      'rest 45psi | rest 36psi x5 | rest 2psi x400 | day 0 cycles 0s x3',
      ['2 min no-start raised now power-lost'],
    ],
    [
      'a tank without air: air lost, and its many starts are its symptoms',
      'cycle 60s 8A 40-60psi every 20min x20 | cycle 20s 8A 40-60psi every 1.2min x200 | day 180 cycles 4000s x3',
      ['240 min tank-air-lost raised soon tank-air-lost'],
    ],
    [
      'a dry well: dry-run, and the current that went with it is its symptom',
      'rest 42psi | run 4.4A 38psi x3 | cycle 60s 4.4A 38-38psi every 20min x40',
      ['2 min dry-run raised now low-well'],
    ],
    [
      'a worn pump: current first, and the slow fills with it are its symptom',
      'cycle 160s 7.5A 40-60psi every 60min x60',
      ['480 min amps-low raised soon worn-pump'],
    ],
  ])('%s', (_name, text, reported) => {
    expect(play(text)).toEqual(reported);
  });

  it('a symptom passes from one explanation to the next', () => {
    const well = kit().play('rest 45psi | rest 36psi x3 | rest 2psi x10');
    expect(standing(well.alarms).map((alarm) => [alarm.alarm, alarm.state])).toEqual([
      ['no-start', 'unacknowledged'],
      ['no-water', 'suppressed-by-design'],
    ]);
    well.play('run 8A 2psi x80');
    expect(well.said()).toEqual([
      '2 min no-start raised now power-lost',
      '29 min long-run raised now broken-pipe',
      '75 min no-start cleared',
    ]);
  });

  it('a symptom that outlives its cause by an hour is told after all', () => {
    const float = houseCard({ uses: ['stock'], pump: { control: 'float' }, switch: {} });
    const days = Array.from({ length: 5 }, () => 'rest 1.1st x3 | rest 1.9st x3 | day 2 cycles').join(' | ');
    const well = kit({ card: float }).play(`${days} | rest 0.5st x5`);
    expect(well.said()).toEqual(['1441 min no-run raised now power-lost']);
    well.play('run 8A 0.5st x50');
    expect(well.said()).toHaveLength(2);
    well.play('run 8A 0.5st x20');
    expect(well.said()[2]).toContain('store-low raised now');
  });

  it('a third alarm of one pump is told only where it is more urgent than the others', () => {
    const well = kit().play('day 120 cycles 14000s x2 | cycle 120s 8.5A 46-66psi every 60min x20');
    expect(well.said()).toHaveLength(2);
    well.play('rest 42psi | run 3.9A 38psi x3');
    expect(well.said()[2]).toContain('dry-run raised now');
  });
});

describe('what is told', () => {
  it('says raised with all fields and cleared with none of them', () => {
    const { events } = kit().play('run 8A 72psi x2 | rest 50psi x1570');
    expect(events).toEqual([
      {
        event: 'alarm',
        well: WELL,
        pump: 'p1',
        alarm: 'over-pressure',
        state: 'raised',
        at: '2026-03-02T00:01:00.000Z',
        since: '2026-03-02T00:00:00.000Z',
        priority: 'now',
        reason: expect.any(String),
        figures: expect.any(Object),
        why: expect.stringContaining('72 psi (496 kPa)'),
        evidence: { kpa: 496, limitKpa: 483, cutOutKpa: 414, pump: 'running' },
        causes: [
          { cause: 'switch-contacts-stuck', weight: 0.75 },
          { cause: 'blocked-nipple', weight: 0.15 },
          { cause: 'switch-out-of-set', weight: 0.1 },
        ],
      },
      {
        event: 'alarm',
        well: WELL,
        pump: 'p1',
        alarm: 'over-pressure',
        state: 'cleared',
        at: '2026-03-03T02:03:00.000Z',
      },
    ]);
  });

  it('a rising priority is told as changed, a falling one is not', () => {
    expect(play('rest 74psi x3 | run 8A 74psi x2 | rest 74psi x3')).toEqual([
      '1 min over-pressure raised soon tank-air-lost',
      '4 min over-pressure changed now switch-contacts-stuck',
    ]);
  });

  it('every line keeps the contract: weights within (0, 1], heaviest first, times in UTC with milliseconds', () => {
    const well = kit().play(
      'rest 45psi | rest 36psi x3 | run 4.4A 36psi x5 | run 8A 72psi x5 | rest 3C 50psi x20 | silent barn | rest 50psi x2 | cycle 20s 9A 45-66psi every 1min x30 | day 200 cycles 3000s leak 900 x4',
    );
    expect(well.events.length).toBeGreaterThan(3);
    for (const event of well.events) {
      expect(event.at).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
      if (event.state !== 'raised') continue;
      expect(event.why!.endsWith('.')).toBe(true);
      expect(JSON.stringify(event)).not.toMatch(/null|NaN|undefined/);
      const weights = event.causes!.map((cause) => cause.weight);
      expect(weights.every((weight) => weight > 0 && weight <= 1)).toBe(true);
      expect(weights).toEqual([...weights].sort((a, b) => b - a));
      expect(weights.reduce((sum, weight) => sum + weight, 0)).toBeLessThanOrEqual(1.03);
    }
  });
});

describe('alarmAct', () => {
  const dead = 'rest 45psi | rest 36psi x3';
  const act = (kind: string, more: object = {}): Act => ({ kind, well: WELL, ...more }) as Act;

  it('acknowledged: silent while it stands, forgotten when it goes', () => {
    const well = kit()
      .play(dead)
      .act(act('acknowledged', { alarm: 'no-start' }));
    expect(standing(well.alarms)[0]!.state).toBe('acknowledged');
    well.play('run 8A 45psi to 60psi x63');
    expect(standing(well.alarms)).toEqual([]);
  });

  it('not acknowledged: it came and went, and waits to be seen', () => {
    const well = kit().play(`${dead} | run 8A 45psi to 60psi x63`);
    expect(standing(well.alarms)[0]!.state).toBe('returned-unacknowledged');
    well.act(act('acknowledged', { alarm: 'no-start', pump: 'p1' }));
    expect(well.alarms.entries).toEqual({});
  });

  it('acknowledging what does not stand changes nothing', () => {
    const well = kit().play('rest 50psi x2');
    const before = JSON.stringify(well.alarms);
    well
      .act(act('acknowledged', { alarm: 'leak' }))
      .act(act('shelved', { alarm: 'leak', untilMs: well.atMs + 1 }));
    expect(JSON.stringify(well.alarms)).toBe(before);
  });

  it('shelved: not told while on the shelf; back when its time is over and it stands', () => {
    const well = kit().play(dead);
    well.act(act('shelved', { alarm: 'no-start', untilMs: well.atMs + 80 * 60_000 }));
    well.play('run 8A 45psi to 60psi x65 | rest 30psi x20');
    // Cleared and risen again on the shelf: nobody heard of the second one until the shelf ended.
    expect(well.said()).toEqual([
      '2 min no-start raised now power-lost',
      '65 min no-start cleared',
      '84 min no-start raised now power-lost',
    ]);
  });

  it('a visit: nothing is raised while it is open, its close clears what stood, and what was before it counts for nothing', () => {
    const well = kit().play(dead).act(act('visit-opened'));
    expect(standing(well.alarms)[0]!.state).toBe('out-of-service');
    well.play('run 8A 90psi x10 | rest 5psi x10').act(act('visit-closed', { newBaseline: true }));
    expect(well.said()).toEqual(['2 min no-start raised now power-lost', '24 min no-start cleared']);
    well.play('rest 50psi x20');
    expect(well.said()).toHaveLength(2);
  });

  it('cycles from before a visit are of another well', () => {
    const well = kit()
      .play('cycle 20s 8A 40-60psi every 1.3min x5')
      .act(act('visit-opened'))
      .act(act('visit-closed', { newBaseline: false }));
    well.play('cycle 20s 8A 40-60psi every 1.3min x3');
    expect(well.said()).toEqual([]);
    well.play('cycle 20s 8A 40-60psi every 1.3min x6');
    expect(well.said()[0]).toContain('short-cycling raised');
  });

  it('laid up: silent until its time is over', () => {
    const well = kit()
      .play('rest 50psi')
      .act(act('laid-up', { untilMs: T0 + 60 * 60_000 }));
    well.play('rest 2psi x59');
    expect(well.said()).toEqual([]);
    well.play('rest 36psi x5');
    expect(well.said()).toEqual(['61 min no-start raised now power-lost']);
  });

  it('out of service: what stands is cleared; back in service it rises afresh', () => {
    const well = kit()
      .play(dead)
      .act(act('out-of-service'))
      .play('rest 36psi x10')
      .act(act('back-in-service'))
      .play('rest 36psi x3');
    expect(well.said()).toEqual([
      '2 min no-start raised now power-lost',
      '4 min no-start cleared',
      '15 min no-start raised now power-lost',
    ]);
  });

  it('acts that are not about alarms change nothing', () => {
    const well = kit().play(dead);
    const before = JSON.stringify(well.alarms);
    well
      .act({ kind: 'tick' })
      .act(act('expected', { text: 'guests', untilMs: 0 }))
      .act({ kind: 'server-away', fromMs: 0 });
    expect(JSON.stringify(well.alarms)).toBe(before);
  });
});

describe('the state', () => {
  it('names what stands for the baseline', () => {
    const well = kit().play('rest 45psi | rest 36psi x3');
    expect(standingKinds(well.alarms, 'p1')).toEqual(['no-start']);
    expect(standingKinds(well.alarms, 'p2')).toEqual([]);
  });

  it('tells once that a fault of our own stopped the watching', () => {
    const events: AlarmEvent[] = [];
    const state = newAlarms();
    state.well = WELL;
    for (let i = 0; i < 2; i++)
      raiseExternally(state, 'not-watched', notWatchedEvaluation(T0, 'Cannot pass'), T0 + i, (event) =>
        events.push(event),
      );
    expect(events).toHaveLength(1);
    expect(events[0]).toMatchObject({ alarm: 'not-watched', priority: 'now', well: WELL });
  });

  it('may be printed and read back at any point: what follows is the same', () => {
    const parts = [
      'rest 45psi x3',
      'rest 36psi x3',
      'run 8A 45psi to 60psi x3',
      'run 8A 72psi x4',
      'run 4.4A 38psi x4',
      'rest 3C 50psi x12',
      'cycle 60s 8.6A 45-65psi every 20min x9',
      'cycle 20s 7.4A 40-60psi every 1.2min x9',
      'day 60 cycles 3000s leak 700',
      'silent barn',
      'heard barn',
    ];
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...parts), { minLength: 3, maxLength: 14 }),
        fc.array(fc.boolean(), { minLength: 14, maxLength: 14 }),
        (texts, saves) => {
          const whole = kit();
          const broken = kit();
          for (const [at, text] of texts.entries()) {
            whole.play(text);
            broken.play(text);
            if (saves[at]) broken.alarms = JSON.parse(JSON.stringify(broken.alarms)) as AlarmsState;
          }
          expect(broken.events).toEqual(whole.events);
          expect(JSON.stringify(broken.alarms)).toBe(JSON.stringify(whole.alarms));
        },
      ),
      { seed: 9, numRuns: 60 },
    );
  });

  it('never says raised twice without cleared between, nor cleared or changed of what does not stand', () => {
    const parts = [
      'rest 45psi x2',
      'rest 30psi x4',
      'run 8A 72psi x5',
      'run 4A 36psi x3',
      'rest 2psi x5',
      'cycle 15s 9A 40-60psi every 1min x8',
      'rest 50psi x70',
      'day 200 cycles 9000s leak 900',
    ];
    const acts: Act[] = [
      { kind: 'visit-opened', well: WELL },
      { kind: 'visit-closed', well: WELL, newBaseline: false },
      { kind: 'acknowledged', well: WELL, alarm: 'no-start' },
      { kind: 'shelved', well: WELL, alarm: 'over-pressure', untilMs: T0 + 40 * 60_000 },
      { kind: 'out-of-service', well: WELL },
      { kind: 'back-in-service', well: WELL },
      { kind: 'laid-up', well: WELL, untilMs: T0 + 90 * 60_000 },
    ];
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.constantFrom(...parts), fc.constantFrom(...acts)), {
          minLength: 4,
          maxLength: 20,
        }),
        (steps) => {
          const well = kit();
          for (const one of steps) {
            if (typeof one === 'string') well.play(one);
            else well.act(one);
          }
          const open = new Set<string>();
          for (const event of well.events) {
            const key = `${event.pump ?? '-'}/${event.alarm}`;
            expect(open.has(key)).toBe(event.state !== 'raised');
            if (event.state === 'cleared') open.delete(key);
            else open.add(key);
          }
          const reported = standing(well.alarms).filter((alarm) => alarm.notified);
          expect(new Set(reported.map((alarm) => `${alarm.pump ?? '-'}/${alarm.alarm}`))).toEqual(open);
        },
      ),
      { seed: 10, numRuns: 150 },
    );
  });

  it('asks well-wide watches with the first pump only', () => {
    const well = kit().play('rest 45psi x2');
    const state = newAlarms();
    const events: AlarmEvent[] = [];
    const pump = {
      index: 1,
      card: { id: 'p2', control: 'pressure-switch' as const },
      cycles: [],
      startsToday: 0,
    };
    const scene = {
      atMs: well.atMs,
      trigger: 'minute',
      pump,
      pumps: [pump],
      well: {
        card: { well: WELL, uses: [], switch: {} },
        minutes: [],
        days: [],
        dayStartedMs: T0,
        nodes: [{ node: 'barn', is: 'silent', sinceMs: T0 }],
        channels: [],
        water: {},
      },
    } as unknown as Scene;
    evaluateAll(state, scene, (event) => events.push(event));
    expect(events).toEqual([]);
  });
});
