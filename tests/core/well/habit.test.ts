/**
 * Weeks of a well through the engine: what it does by the clock, days of 23 and 25 h, and what was
 * normal before a visit.
 */
import { describe, expect, it } from 'vitest';
import type { BaselineEvent } from '../../../shared/api/events.ts';
import { channelCode } from '../../../src/core/domain/channels.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import type { Card } from '../../../src/core/domain/card.ts';
import {
  advance,
  deserializeWell,
  newWell,
  serializeWell,
  applyInput,
  type Emitted,
} from '../../../src/core/well/engine.ts';
import type { Segment } from '../../../src/core/readings/segment.ts';
import type { WellState } from '../../../src/core/well/well-state.ts';

const DAY_S = 86_400;
/** Readings every five seconds: runs of two minutes have 24 of them. */
const EVERY_S = 5;

function card(): Card {
  const read = readCard({
    well: 'north',
    timeZone: 'America/Denver',
    pump: { motor: '1 hp', maxAmps: '9.8 A' },
    switch: { cutIn: '40 psi', cutOut: '60 psi' },
    tank: { volume: '44 gal', precharge: '38 psi' },
  });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

/**
 * Runs of two minutes at these hours after `fromMs`, for so many days. Pressure rises in them,
 * holds, and falls within five minutes before the next: somebody draws water.
 */
function live(
  well: WellState,
  fromMs: number,
  days: number,
  how: { amps: number; hours: number[] },
): Emitted[] {
  const events: Emitted[] = [];
  const current = channelCode('current')!;
  const pressure = channelCode('pressure')!;
  const n = (2 * DAY_S) / EVERY_S;
  const day: Segment = {
    n,
    timeMs: new Float64Array(n),
    channel: new Uint8Array(n),
    value: new Float64Array(n),
    fault: new Uint8Array(n),
  };
  const starts = how.hours.map((hour) => hour * 3600);
  for (let at = 0; at < n; at += 2) {
    const s = (at / 2) * EVERY_S;
    const ran = s - (starts.findLast((start) => start <= s) ?? -DAY_S);
    const till = (starts.find((start) => start > s) ?? starts[0]! + DAY_S) - s;
    const runs = ran < 120;
    const share = runs ? ran / 120 : Math.min(1, till / 300);
    const wave = 0.02 * Math.sin(at);
    day.channel.set([current, pressure], at);
    day.value.set([runs ? how.amps - 0.6 * share + wave : 0, (275.8 + 137.9 * share + wave) * 1000], at);
  }
  for (let one = 0; one < days; one++) {
    for (let at = 0; at < n; at++) day.timeMs[at] = fromMs + (one * DAY_S + (at >> 1) * EVERY_S) * 1000;
    advance(well, day, (event) => events.push(event));
  }
  return events;
}

const baselines = (events: Emitted[]): BaselineEvent[] =>
  events.map(({ event }) => event).filter((event) => event.event === 'baseline');

describe('weeks of a well', () => {
  it.each<[string, string, number[]]>([
    ['23 h', '2026-03-05T07:00:00Z', [6, 6, 6, 7, 7, 7]],
    ['25 h', '2026-10-29T06:00:00Z', [6, 6, 6, 5, 5]],
  ])(
    'a day of %s teaches like any other, and hours are those of the clock on the wall',
    (_name, from, hours) => {
      const well = newWell(card());
      const events = live(well, Date.parse(from), 6, { amps: 8, hours: [6.1, 12.1, 18.1] });
      const { habit, days } = well.records[0]!.learning;
      expect(days).toBe(hours.length);
      expect(habit.days.map(([, , , began]) => 31 - Math.clz32(began & -began))).toEqual(hours);
      expect(events.filter(({ event }) => event.event === 'alarm')).toEqual([]);
    },
  );

  it('a visit that begins a new normal keeps the old one to compare with, saved and loaded too', () => {
    const from = Date.parse('2026-05-04T06:00:00Z');
    const hours = [1, 4, 7, 10, 13, 16, 19];
    let well = newWell(card());
    const first = baselines(live(well, from, 7, { amps: 8.6, hours }));
    expect(first).toHaveLength(1);
    const atMs = from + 7 * DAY_S * 1000;
    const acts: Emitted[] = [];
    applyInput(well, { atMs, act: { kind: 'visit-opened', well: 'north' } }, (event) => acts.push(event));
    applyInput(
      well,
      { atMs: atMs + 3_600_000, act: { kind: 'visit-closed', well: 'north', newBaseline: true } },
      (event) => acts.push(event),
    );
    expect(well.records[0]).toMatchObject({ baseline: undefined, pinned: undefined });
    well = deserializeWell(serializeWell(well));
    const second = baselines(live(well, atMs + DAY_S * 1000, 7, { amps: 7.9, hours }));
    expect(second).toHaveLength(1);
    const { baseline, previousBaseline } = well.records[0]!;
    expect(baseline!.amps!.median / second[0]!.amps!).toBeCloseTo(1, 3);
    expect(previousBaseline!.amps!.median / first[0]!.amps!).toBeCloseTo(1, 3);
    expect(previousBaseline!.amps!.median - baseline!.amps!.median).toBeCloseTo(0.7, 1);
    expect(previousBaseline!.shape).toBeUndefined();
  });

  it('days of which the well was laid up for a part teach nothing', () => {
    const from = Date.parse('2026-05-04T06:00:00Z');
    const hours = [1, 4, 7, 10, 13, 16, 19];
    const well = newWell(card());
    live(well, from, 7, { amps: 8.6, hours });
    const { habit } = well.records[0]!.learning;
    const atMs = from + (7 * DAY_S + 43_200) * 1000;
    const untilMs = atMs + 2 * DAY_S * 1000;
    applyInput(well, { atMs, act: { kind: 'laid-up', well: 'north', untilMs } }, () => undefined);
    live(well, atMs, 3.5, { amps: 8.6, hours: [1] });
    expect(habit.days.map(([, cycles]) => cycles)).toEqual([7, 7, 7, 7, 7, 7, 7, 1]);
  });
});
