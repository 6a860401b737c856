import { describe, expect, it } from 'vitest';
import type { AlarmEvent, CycleEvent, DayEvent } from '../../../shared/api/events.ts';
import type { Act } from '../../../src/core/domain/act.ts';
import { channelCode, startCodeOf } from '../../../src/core/domain/channels.ts';
import { readAct } from '../../../src/core/domain/read-act.ts';
import { defaultCardForNode, readCard } from '../../../src/core/domain/read-card.ts';
import type { Card } from '../../../src/core/domain/card.ts';
import {
  advance,
  deserializeWell,
  newWell,
  advanceTo,
  serializeWell,
  applyInput,
  type Emitted,
} from '../../../src/core/well/engine.ts';
import { CLOCK_STEP_BIT } from '../../../src/core/readings/segment.ts';
import type { NodeNews } from '../../../src/core/readings/news.ts';

const T0 = Date.UTC(2026, 2, 2, 12);

type Row = [s: number, channel: string, value: number, fault?: number];

function card(more: object = {}): Card {
  const read = readCard({ well: 'north', ...more });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

function act(written: object): Act {
  const read = readAct(written);
  if ('problem' in read) throw new Error(read.problem);
  return read.act;
}

const code = (channel: string): number =>
  channel.startsWith('start:') ? startCodeOf(channelCode(channel.slice(6))!) : channelCode(channel)!;

/** A well fed in steps: rows of readings, acts and news in the order of their times. */
function line(first: Card): {
  rows: (rows: Row[]) => void;
  act: (s: number, written: object) => void;
  news: (s: number, node: NodeNews) => void;
  pass: (s: number) => void;
  events: Emitted[];
} {
  let well = newWell(first);
  const events: Emitted[] = [];
  const emit = (e: Emitted): void => void events.push(e);
  return {
    events,
    rows(rows) {
      const sorted = [...rows].sort((a, b) => a[0] - b[0] || code(a[1]) - code(b[1]));
      advance(
        well,
        {
          n: sorted.length,
          timeMs: Float64Array.from(sorted, (r) => T0 + r[0] * 1000),
          channel: Uint8Array.from(sorted, (r) => code(r[1])),
          value: Float64Array.from(sorted, (r) => r[2]),
          fault: Uint8Array.from(sorted, (r) => r[3] ?? 0),
        },
        emit,
      );
      well = deserializeWell(serializeWell(well));
    },
    act: (s, written) => applyInput(well, { atMs: T0 + s * 1000, act: act(written) }, emit),
    news: (s, node) => applyInput(well, { atMs: T0 + s * 1000, node }, emit),
    pass: (s) => advanceTo(well, T0 + s * 1000, emit),
  };
}

/** `amps` at 1 Hz from `fromS` for `forS` seconds. */
const hold = (channel: string, fromS: number, forS: number, value: number): Row[] =>
  Array.from({ length: forS }, (_, i) => [fromS + i, channel, value]);

const cycles = (events: Emitted[]): CycleEvent[] =>
  events.map((e) => e.event).filter((e): e is CycleEvent => e.event === 'cycle');
const days = (events: Emitted[]): DayEvent[] =>
  events.map((e) => e.event).filter((e): e is DayEvent => e.event === 'day');
const alarms = (events: Emitted[]): AlarmEvent[] =>
  events.map((e) => e.event).filter((e): e is AlarmEvent => e.event === 'alarm');

describe('the record of a start', () => {
  it('gives startAmps and is no channel of the well', () => {
    const well = line(defaultCardForNode('north'));
    const record = Array.from({ length: 50 }, (_, i): Row => [
      59.8 + i / 50,
      'start:current',
      i < 10 ? 0 : 41 - i / 2,
    ]);
    well.rows([
      ...hold('current', 0, 60, 0),
      ...hold('current', 60, 60, 8),
      ...hold('current', 120, 10, 0),
      ...record,
    ]);
    expect(cycles(well.events)).toEqual([expect.objectContaining({ startAmps: 36, amps: 8, ranS: 60 })]);
  });

  it('counts for readings each 5 s too, whose run is seen after it', () => {
    const well = line(defaultCardForNode('north'));
    const slow = (fromS: number, n: number, amps: number): Row[] =>
      Array.from({ length: n }, (_, i) => [fromS + 5 * i, 'current', amps]);
    const record = Array.from({ length: 25 }, (_, i): Row => [101 + i / 50, 'start:current', 30]);
    well.rows([...slow(0, 21, 0), ...slow(105, 10, 8), ...slow(155, 5, 0), ...record]);
    expect(cycles(well.events)[0]).toMatchObject({ startAmps: 30, started: '2026-03-02T12:01:45.000Z' });
  });
});

describe('holes and clocks', () => {
  it('a hole in the rest: the run that ends it may be older, and how long it rested is not known', () => {
    const well = line(defaultCardForNode('north'));
    well.rows([
      ...hold('current', 0, 30, 0),
      ...hold('current', 30, 20, 8),
      ...hold('current', 50, 20, 0),
      ...hold('current', 159, 30, 8),
      ...hold('current', 189, 10, 0),
    ]);
    const [first, second] = cycles(well.events);
    expect(first).toMatchObject({ ranS: 20, flags: [] });
    expect(second).toMatchObject({ ranS: 30, flags: ['gap'] });
    expect(second).not.toHaveProperty('restedS');
  });

  it('an overruled clock is flagged on the run that goes on', () => {
    const well = line(defaultCardForNode('north'));
    const rows = [...hold('current', 0, 30, 0), ...hold('current', 30, 40, 8), ...hold('current', 70, 10, 0)];
    rows[50] = [50, 'current', 8, CLOCK_STEP_BIT];
    well.rows(rows);
    expect(cycles(well.events)[0]!.flags).toEqual(['clock-step']);
  });

  it('a reading over full scale is flagged', () => {
    const well = line(defaultCardForNode('north'));
    const rows = [...hold('current', 0, 30, 0), ...hold('current', 30, 40, 8), ...hold('current', 70, 10, 0)];
    rows[50] = [50, 'current', Number.NaN, 2];
    well.rows(rows);
    expect(cycles(well.events)[0]!.flags).toEqual(['clipped']);
  });

  it.each<[string, Record<string, number>, Row[], string[]]>([
    ['current at the most that the clamp shows', { current: 8 }, [], ['clipped']],
    ['current under it', { current: 8.01 }, [], []],
    ['pressure at the most that the transducer shows', { pressure: 400_000 }, [], ['clipped']],
    ['pressure that reaches it only at rest', { pressure: 420_000 }, [[200, 'pressure', 420_000]], []],
    ['the most that another channel shows', { 'p2/current': 1 }, [], []],
    ['another node', {}, [], []],
  ])('a reading at the full scale that its node said: %s', (_name, most, more, flags) => {
    const well = line(defaultCardForNode('north'));
    well.news(0, { news: 'full-scale', node: 'north', maxByChannel: most });
    well.news(0, { news: 'full-scale', node: 'south', maxByChannel: { current: 1 } });
    well.rows([
      ...hold('current', 0, 130, 0),
      ...hold('current', 130, 40, 8),
      ...hold('current', 170, 50, 0),
      ...hold('pressure', 0, 130, 300_000),
      ...hold('pressure', 130, 60, 400_000),
      ...more,
    ]);
    expect(cycles(well.events)[0]!.flags).toEqual(flags);
  });

  it('what a node says of its channels holds in place of what it said before', () => {
    const well = line(defaultCardForNode('north'));
    well.rows(hold('current', 0, 30, 0));
    well.news(30, { news: 'full-scale', node: 'north', maxByChannel: { current: 8 } });
    well.news(31, { news: 'full-scale', node: 'north', maxByChannel: { current: 60 } });
    well.rows([...hold('current', 31, 40, 8), ...hold('current', 71, 50, 0)]);
    expect(cycles(well.events)[0]!.flags).toEqual([]);
  });
});

describe('acts', () => {
  it('a calibrated channel reads true from then on', () => {
    const well = line(defaultCardForNode('north'));
    well.act(0, {
      kind: 'calibrated',
      node: 'north',
      channel: 'current',
      points: [
        [0, 0],
        [8, 8.8],
      ],
    });
    well.rows([...hold('current', 1, 60, 0), ...hold('current', 61, 40, 8), ...hold('current', 101, 10, 0)]);
    expect(cycles(well.events)[0]!.amps).toBeCloseTo(8.8, 6);
  });

  it('a card that names a second pump: the running day has a line for each and one for the water', () => {
    const well = line(defaultCardForNode('north'));
    well.rows(hold('current', 0, 60, 0));
    well.act(60, { kind: 'card-changed', card: { well: 'north', pumps: { p1: {}, p2: {} } } });
    well.rows([
      ...hold('current', 61, 60, 0),
      ...hold('p2/current', 61, 30, 0),
      ...hold('p2/current', 91, 30, 6),
      ...hold('p2/current', 121, 10, 0),
    ]);
    well.pass(13 * 3600);
    expect(days(well.events).map((d) => [d.pump, d.cycles])).toEqual([
      [undefined, undefined],
      ['p1', 0],
      ['p2', 1],
    ]);
  });

  it('a card that only describes more changes nothing but the card', () => {
    const written = {
      well: 'north',
      pump: { motor: '1 hp', maxAmps: '9.8 A' },
      switch: '40/60',
      tank: { volume: '44 gal' },
    };
    const more = {
      ...written,
      pump: { ...written.pump, maker: 'Tarn', controlBox: 'Box One' },
      tank: { ...written.tank, maker: 'Fell', installed: '2019' },
      hole: { depth: '320 ft', staticLevel: '41 ft' },
      electrical: { breakerAmps: '20 A', wires: { switch: ['L1 black'] } },
      where: { tank: 'left of the furnace' },
      firm: 'Larch Pumps',
    };
    const after = (changed: object): Record<string, unknown> => {
      let well = newWell(card(written));
      const emit = (): void => undefined;
      const change = (s: number, json: object): void =>
        applyInput(well, { atMs: T0 + s * 1000, act: act(json) }, emit);
      change(0, { kind: 'pinned', well: 'north', pump: 'p1', amps: '7.9 A', cutIn: '40 psi' });
      change(60, { kind: 'card-changed', card: changed });
      advanceTo(well, T0 + 3_600_000, emit);
      well = deserializeWell(serializeWell(well));
      return { ...well, card: {} };
    };
    expect(after(more)).toEqual(after(written));
    // A tank of another size does start something anew: the comparison can tell.
    expect(after({ ...more, tank: { volume: '20 gal' } })).not.toEqual(after(written));
  });

  it('a node that a new card no longer names is no news', () => {
    const well = line(card({ reads: { current: 'old-box:current' } }));
    well.rows(hold('current', 0, 120, 0));
    well.news(3600, { news: 'silent', node: 'old-box', sinceMs: T0 + 120_000 });
    well.pass(4200);
    expect(alarms(well.events).map((a) => `${a.alarm} ${a.state}`)).toEqual(['node-silent raised']);
    well.act(4201, { kind: 'card-changed', card: { well: 'north', reads: { current: 'new-box:current' } } });
    well.pass(9000);
    expect(alarms(well.events).map((a) => `${a.alarm} ${a.state}`)).toEqual([
      'node-silent raised',
      'node-silent cleared',
    ]);
  });

  it('pins are said as the baseline', () => {
    const well = line(card());
    well.act(0, { kind: 'pinned', well: 'north', pump: 'p1', amps: '7.9 A', cutIn: '40 psi' });
    const [said] = well.events;
    expect(said!.event).toMatchObject({ event: 'baseline', pinned: true, amps: 7.9 });
  });

  it('while a visit is open nothing is raised, and closing what was not open clears nothing', () => {
    const quiet = line(card({ reads: { current: 'box:current' } }));
    quiet.rows(hold('current', 0, 120, 0));
    quiet.act(200, { kind: 'visit-opened', well: 'north' });
    quiet.news(3600, { news: 'silent', node: 'box', sinceMs: T0 + 120_000 });
    quiet.pass(7200);
    expect(alarms(quiet.events)).toEqual([]);
    const loud = line(card({ reads: { current: 'box:current' } }));
    loud.rows(hold('current', 0, 120, 0));
    loud.news(3600, { news: 'silent', node: 'box', sinceMs: T0 + 120_000 });
    loud.pass(4200);
    loud.act(4300, { kind: 'visit-closed', well: 'north' });
    expect(alarms(loud.events).map((a) => a.state)).toEqual(['raised']);
  });
});
