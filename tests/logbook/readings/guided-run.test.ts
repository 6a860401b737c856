import { describe, expect, test } from 'vitest';
import type { CycleEvent } from '../../../shared/api/events.ts';
import { guidedRun, type GuidedRunInput } from '../../../src/logbook/readings/guided-run.ts';

const SINCE = Date.parse('2026-05-10T15:00:00Z');
const at = (s: number): number => SINCE + s * 1000;

function cycle(startS: number, ranS: number, more: Partial<CycleEvent> = {}): CycleEvent {
  return {
    event: 'cycle',
    well: 'orchard',
    pump: 'p1',
    started: new Date(at(startS)).toISOString(),
    stopped: new Date(at(startS + ranS)).toISOString(),
    ranS,
    amps: 7.9,
    cutInKpa: 276,
    cutOutKpa: 414,
    flags: [],
    ...more,
  };
}

/** At so many seconds after the guide began, heard 2 s ago. */
const now = (s: number, more: Partial<GuidedRunInput> = {}): GuidedRunInput => ({
  sinceMs: SINCE,
  nowMs: at(s),
  control: 'pressure-switch',
  lastReadingMs: at(s - 2),
  running: false,
  cycles: [],
  normalRanS: 100,
  ...more,
});

describe('guidedRun', () => {
  test.each<[string, GuidedRunInput, object]>([
    ['no clamp was ever heard', { ...now(5), lastReadingMs: undefined } as never, { is: 'no-data' }],
    ['nothing comes any more', now(300, { lastReadingMs: at(100) }), { is: 'no-data', silentS: 200 }],
    ['it rests', now(30), { is: 'waiting', waitedS: 30 }],
    [
      'it ran before the guide began',
      now(5, { running: true, runningSinceMs: at(-40) }),
      { is: 'already-running', ranS: 45 },
    ],
    ['it runs', now(60, { running: true, runningSinceMs: at(20) }), { is: 'running', ranS: 40, long: false }],
    [
      'it runs long',
      now(260, { running: true, runningSinceMs: at(20) }),
      { is: 'running', ranS: 240, long: true },
    ],
    ['it never starts', now(1900), { is: 'timed-out', reason: 'no-start' }],
    [
      'it never stops',
      now(3800, { running: true, runningSinceMs: at(20) }),
      { is: 'timed-out', reason: 'no-stop' },
    ],
    [
      'a run that began before counts for nothing',
      now(90, { cycles: [cycle(-50, 100)] }),
      { is: 'waiting', waitedS: 90 },
    ],
    [
      'a run with a hole',
      now(200, { cycles: [cycle(20, 100, { flags: ['gap'] })] }),
      { is: 'unusable', reason: 'gap' },
    ],
    [
      'a start that failed',
      now(200, { cycles: [cycle(20, 1, { flags: ['failed-start'] })] }),
      { is: 'unusable', reason: 'failed-start' },
    ],
    [
      'a good run after a bad one',
      now(400, { cycles: [cycle(20, 1, { flags: ['failed-start'] }), cycle(100, 95)] }),
      {
        is: 'done',
        readings: [
          { kind: 'amps', si: 7.9 },
          { kind: 'cut-in', si: 276 },
          { kind: 'cut-out', si: 414 },
          { kind: 'fill-time', si: 95 },
        ],
        missing: [],
        coarse: false,
      },
    ],
    [
      'what was shown stays, though the node fell silent',
      now(900, { lastReadingMs: at(130), cycles: [cycle(20, 100)] }),
      { is: 'done' },
    ],
    [
      'a well without a transducer',
      now(200, { cycles: [(({ cutInKpa: _in, cutOutKpa: _out, ...rest }) => rest)(cycle(20, 100))] }),
      {
        is: 'done',
        readings: [
          { kind: 'amps', si: 7.9 },
          { kind: 'fill-time', si: 100 },
        ],
        missing: [
          { kind: 'cut-in', reason: 'no-sensor' },
          { kind: 'cut-out', reason: 'no-sensor' },
        ],
      },
    ],
    [
      'a run that leveled off under cut-out fills nothing',
      now(200, { cycles: [cycle(20, 100, { flags: ['no-cut-out', 'coarse'] })] }),
      {
        is: 'done',
        readings: [
          { kind: 'amps', si: 7.9 },
          { kind: 'cut-in', si: 276 },
        ],
        missing: [
          { kind: 'cut-out', reason: 'not-reached' },
          { kind: 'fill-time', reason: 'not-reached' },
        ],
        coarse: true,
      },
    ],
    [
      'a float knows no pressures',
      now(200, { control: 'float', cycles: [cycle(20, 100)] }),
      {
        is: 'done',
        readings: [{ kind: 'amps', si: 7.9 }],
        missing: [
          { kind: 'cut-in', reason: 'not-by-pressure' },
          { kind: 'cut-out', reason: 'not-by-pressure' },
          { kind: 'fill-time', reason: 'not-by-pressure' },
        ],
      },
    ],
    [
      'three phases',
      now(200, { control: 'float', cycles: [cycle(20, 100, { amps2: 7.8, amps3: 8 })] }),
      {
        is: 'done',
        readings: [
          { kind: 'amps', si: 7.9 },
          { kind: 'amps', si: 7.8, phase: 2 },
          { kind: 'amps', si: 8, phase: 3 },
        ],
      },
    ],
  ])('%s', (_, seen, found) => {
    expect(guidedRun(seen)).toMatchObject(found);
  });
});
