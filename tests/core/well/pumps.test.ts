/**
 * Several pumps on one well, a pressure of one pump alone, and a flow meter: streams written by
 * hand through the whole engine.
 */
import { describe, expect, it } from 'vitest';
import type { AlarmEvent, CycleEvent, DayEvent } from '../../../shared/api/events.ts';
import { channelCode } from '../../../src/core/domain/channels.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { advance, newWell, advanceTo } from '../../../src/core/well/engine.ts';
import type { Emitted } from '../../../src/core/well/emit.ts';

const T0 = Date.UTC(2026, 2, 2);
const EVERY_S = 10;
const DAY_S = 86_400;

interface Now {
  /** By channel, in the contract's units. */
  [channel: string]: number;
}

interface Reported {
  cycles: CycleEvent[];
  days: DayEvent[];
  alarms: string[];
}

/** Plays what `at` says each 10 s, for so many seconds. */
function play(card: object, seconds: number, at: (s: number) => Now): Reported {
  const read = readCard({ well: 'north', ...card });
  if ('problem' in read) throw new Error(read.problem);
  const well = newWell(read.card);
  const reported: Reported = { cycles: [], days: [], alarms: [] };
  const emit = ({ event }: Emitted): void => {
    if (event.event === 'cycle') reported.cycles.push(event);
    else if (event.event === 'day') reported.days.push(event);
    else if (event.event === 'alarm') reported.alarms.push(inWords(event));
  };
  for (let fromS = 0; fromS < seconds; fromS += 3600) {
    const rows: [number, number, number][] = [];
    for (let s = fromS; s < Math.min(seconds, fromS + 3600); s += EVERY_S)
      for (const [channel, value] of Object.entries(at(s)))
        rows.push([T0 + s * 1000, channelCode(channel)!, value]);
    rows.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    advance(
      well,
      {
        n: rows.length,
        timeMs: Float64Array.from(rows, (row) => row[0]),
        channel: Uint8Array.from(rows, (row) => row[1]),
        value: Float64Array.from(rows, (row) => row[2]),
        fault: new Uint8Array(rows.length),
      },
      emit,
    );
  }
  advanceTo(well, T0 + seconds * 1000, emit);
  return reported;
}

const inWords = ({ alarm, pump, state, priority, at }: AlarmEvent): string =>
  `${at.slice(5, 10)} ${pump ?? 'well'} ${alarm} ${state}${priority ? ` ${priority}` : ''}`;

/**
 * A fill of three minutes each hundred, between 276 and 414 kPa: how far along it is, and which
 * fill of the stream it is.
 */
const PERIOD_S = 6000;
const FILL_S = 180;
function fillAt(s: number): { n: number; running: boolean; pa: number } {
  const n = Math.floor(s / PERIOD_S);
  const into = s % PERIOD_S;
  const rest = PERIOD_S - FILL_S;
  const running = into >= rest;
  // Water is drawn in the second half of each rest: what never stands still is a leak.
  const drawn = Math.max(0, 2 * into - rest) / rest;
  const kpa = running ? 276 + (138 * (into - rest)) / FILL_S : 414 - 138 * drawn;
  return { n, running, pa: 1000 * kpa + 300 * Math.sin(s) };
}

const two = { pumps: { p1: {}, p2: {} }, switch: { cutIn: '40 psi', cutOut: '60 psi' } };
const amps = (on: boolean, s: number): number => (on ? 8 : 0) + 0.01 * Math.cos(s);

describe('two pumps that take turns', () => {
  const turns =
    (only?: { pump: 0 | 1; fromS: number }) =>
    (s: number): Now => {
      const { n, running, pa } = fillAt(s);
      const turn = only && s >= only.fromS ? only.pump : n % 2;
      return {
        current: amps(running && turn === 0, s),
        'p2/current': amps(running && turn === 1, s + 1),
        pressure: pa,
      };
    };

  it('thirty days of it tell nothing; the day has a line for each', () => {
    const { alarms, days } = play(two, 30 * DAY_S, turns());
    expect(alarms).toEqual([]);
    const third = days.filter((day) => day.date === '2026-03-04');
    expect(third.map((day) => day.pump)).toEqual([undefined, 'p1', 'p2']);
    expect(third.map((day) => day.cycles)).toEqual([undefined, expect.any(Number), expect.any(Number)]);
    expect(Math.abs(third[1]!.cycles! - third[2]!.cycles!)).toBeLessThan(2);
  });

  it('the relay stays with the first: the second is missed once, by its own name, and nobody is got up', () => {
    const { alarms } = play(two, 18 * DAY_S, turns({ pump: 0, fromS: 14 * DAY_S }));
    expect(alarms.filter((line) => line.includes('no-run'))).toEqual(['03-16 p2 no-run raised soon']);
    expect(alarms.filter((line) => line.includes(' now'))).toEqual([]);
  });

  it('neither runs: told once, though both are wanted', () => {
    const dead = (s: number): Now =>
      s < 8 * DAY_S ? turns()(s) : { current: 0.01, 'p2/current': 0.01, pressure: 150_000 + (s % 700) };
    const { alarms } = play(two, 8 * DAY_S + 7200, dead);
    expect(alarms).toEqual(['03-10 p1 no-start raised now']);
  });
});

describe('a lag pump', () => {
  it('that helps once in ten days is not missed, and its seldom runs are no habit', () => {
    const { alarms, cycles } = play(two, 30 * DAY_S, (s) => {
      const { n, running, pa } = fillAt(s);
      const helps = n % 144 === 100 && running;
      return {
        current: amps(running, s),
        'p2/current': amps(helps && s % PERIOD_S >= PERIOD_S - 120, s),
        pressure: pa,
      };
    });
    expect(alarms).toEqual([]);
    expect(cycles.filter((cycle) => cycle.pump === 'p2')).toHaveLength(3);
  });
});

describe('p2/pressure', () => {
  it('is that pump’s alone: its points come from it, and the first pump’s from the well’s', () => {
    const card = { pumps: { p1: { control: 'float' }, p2: {} } };
    const { cycles } = play(card, 6 * PERIOD_S + 60, (s) => {
      const { n, running, pa } = fillAt(s);
      return {
        current: amps(n % 2 === 0 && s % PERIOD_S > 3000 && s % PERIOD_S < 4000, s),
        'p2/current': amps(running, s),
        pressure: 70_000 + (s % 90),
        'p2/pressure': pa,
      };
    });
    const of = (pump: string): CycleEvent => cycles.find((cycle) => cycle.pump === pump)!;
    expect(of('p1').cutInKpa).toBeCloseTo(70, 0);
    expect(of('p2').cutInKpa).toBeCloseTo(276, -0.5);
    expect(of('p2').cutOutKpa).toBeGreaterThan(400);
  });
});

describe('a flow meter', () => {
  it('gives the litres of runs and days, of a drive too, where pressure cannot', () => {
    const reported = play({ control: 'variable-speed' }, 3 * DAY_S, (s) => {
      const { running, pa } = fillAt(s);
      return { current: amps(running, s), pressure: pa, flow: running ? 0.0005 : 0 };
    });
    // Half a step of the meter is missed at each end: 90 L flowed.
    expect(reported.cycles[3]!.deliveredL).toBeGreaterThan(84);
    expect(reported.cycles[3]!.deliveredL).toBeLessThan(91);
    expect(reported.days[1]!.usedL).toBeGreaterThan(14 * 84);
    expect(reported.days[1]!.usedL).toBeLessThan(15 * 92);
  });

  it('without one a drive’s runs and days have no litres, tank on the card or not', () => {
    const card = {
      control: 'variable-speed',
      tank: { kind: 'captive-air', volume: '20 gal', precharge: '38 psi' },
    };
    const reported = play(card, 2 * DAY_S, (s) => {
      const { running, pa } = fillAt(s);
      return { current: amps(running, s), pressure: pa };
    });
    expect(reported.cycles.some((cycle) => cycle.deliveredL !== undefined)).toBe(false);
    expect(reported.days.some((day) => day.usedL !== undefined)).toBe(false);
  });
});

describe('litres of a day by pressure', () => {
  const card = {
    switch: { cutIn: '40 psi', cutOut: '60 psi' },
    tank: { kind: 'captive-air', volume: '44 gal', precharge: '38 psi' },
  };
  it.each<[string, (hour: number) => boolean, { used: boolean; leak: boolean }]>([
    ['current heard all day', () => true, { used: true, leak: true }],
    ['current unheard for an hour', (hour) => hour !== 3, { used: true, leak: true }],
    ['current unheard for three hours', (hour) => hour < 3 || hour > 5, { used: false, leak: true }],
    ['current never heard', () => false, { used: false, leak: false }],
  ])('%s', (_, isHeard, want) => {
    const { days } = play(card, 3 * DAY_S, (s) => {
      const { running, pa } = fillAt(s);
      return { ...(isHeard(Math.floor(s / 3600) % 24) && { current: amps(running, s) }), pressure: pa };
    });
    const day = days[1]!;
    expect({ used: day.usedL !== undefined, leak: day.leakLPerDay !== undefined }).toEqual(want);
  });
});
