/**
 * Steps that people marked in measured and made series (G. J. J. van den Burg, C. K. I. Williams,
 * "An Evaluation of Change Point Detection Algorithms", arXiv:2003.06222; the data are read where
 * ../shared/data is there). The chart alone finds the Nile's break of 1898; the watches, which also
 * want three spreads in the median of twelve runs before they get anybody up, find those that are
 * as large, and nothing that nobody marked.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { newHabit } from '../../../src/core/baseline/habit.ts';
import { normalOf } from '../../../src/core/baseline/robust.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';
import { ampsHigh } from '../../../src/core/alarms/electric/amps-high.ts';
import { ampsLow } from '../../../src/core/alarms/electric/amps-low.ts';
import { cusumDirection, updateCusum, newCusum } from '../../../src/core/alarms/charts/cusum.ts';
import { cusumLimit } from '../../../src/core/alarms/charts/run-length.ts';
import type { Scene } from '../../../src/core/alarms/scene.ts';
import { houseCard, T0, usualBaseline } from './scene-kit.ts';

const FOLDER = fileURLToPath(new URL('../../../../shared/data/tcpd/', import.meta.url));
/** As many as a normal is learnt from at least. */
const LEARN = 20;
/** A step is told within so many values: the twelve of the median and two over. */
const WITHIN = 14;

const column = (name: string): number[] => lines(`${name}.csv`).map((line) => Number(line.split(',')[2]));
const lines = (file: string): string[] =>
  readFileSync(`${FOLDER}${file}`, 'utf8').trim().split('\n').slice(1);

/** All points that any of the five people marked, 0-based: the first value of the new regime. */
const marked = (name: string): number[] =>
  lines('annotations.csv')
    .map((line) => line.split(','))
    .filter(([dataset]) => dataset === name)
    .flatMap(([, , points = '']) =>
      points
        .split(' ')
        .filter((point) => point !== '')
        .map(Number),
    );

/**
 * The chart alone: normal from the first values, the change where the sum that speaks last left
 * zero, and learnt anew from there.
 */
function byChart(x: readonly number[], learn: number): number[] {
  const k = 1;
  const h = cusumLimit(k, 10_000);
  const found: number[] = [];
  let from = 0;
  for (let at = from + learn, [high, low, sums] = [at, at, newCusum()]; at < x.length; at++) {
    const normal = normalOf(x.slice(from, from + learn))!;
    updateCusum(sums, Math.max(-3 - k, Math.min(3 + k, (x[at]! - normal.median) / normal.spread)), k);
    if (sums.high === 0) high = at + 1;
    if (sums.low === 0) low = at + 1;
    const says = cusumDirection(sums, h);
    if (says === undefined) continue;
    from = says === 'high' ? high : low;
    found.push(from);
    at = from + learn - 1;
    [high, low, sums] = [at + 1, at + 1, newCusum()];
  }
  return found;
}

/**
 * The watches: each value a run's current about 8 A with a spread of 1.5 %; after an alarm the
 * normal is learnt anew, as after a visit.
 */
function byWatches(x: readonly number[]): number[] {
  const found: number[] = [];
  let from = 0;
  while (from + LEARN < x.length) {
    const { median, spread } = normalOf(x.slice(from, from + LEARN))!;
    const amps = x.map((value) => 8 * (1 + (0.015 * (value - median)) / spread));
    const reported = firstAlarm(amps, from);
    if (reported === undefined) break;
    found.push(reported);
    from = reported;
  }
  return found;
}

function firstAlarm(amps: readonly number[], from: number): number | undefined {
  const baseline = usualBaseline({ amps: normalOf(amps.slice(from, from + LEARN))! });
  const card = houseCard();
  const cycles: Cycle[] = [];
  const watches = [ampsHigh, ampsLow].map((watch) => ({ watch, memory: {} }));
  for (let at = from + LEARN; at < amps.length; at++) {
    const startedMs = T0 + at * 7_200_000;
    // A fill takes as long as ever: only the current moves.
    const stoppedMs = startedMs + 100_000;
    const cycle: Cycle = {
      pump: 0,
      startedMs,
      stoppedMs,
      ranS: 100,
      readings: 100,
      amps: amps[at]!,
      flags: [],
    };
    cycles.push(cycle);
    if (cycles.length > 40) cycles.shift();
    const pump: Scene['pump'] = {
      index: 0,
      card: card.pumps[0]!,
      cycles,
      startsToday: 0,
      habit: newHabit(),
      baseline,
      pinned: baseline,
    };
    const scene: Scene = {
      atMs: stoppedMs,
      trigger: 'cycle',
      well: {
        card,
        minutes: [],
        days: [],
        dayStartedMs: T0,
        dayEndsMs: T0 + 86_400_000,
        date: '2026-03-02',
        nodes: [],
        channels: [],
        water: {},
      },
      pump,
      pumps: [pump],
      cycle,
    };
    if (watches.some(({ watch, memory }) => watch.evaluate(scene, memory).is === 'active')) return at;
  }
  return undefined;
}

describe.skipIf(!existsSync(FOLDER))(
  'steps that people marked (skipped where ../shared/data is not there)',
  () => {
    it('the Nile at Aswan: 1898 is the last year of the old regime (R datasets::Nile; strucchange, breakpoints.Rd)', () => {
      expect(byChart(column('nile'), LEARN)).toEqual([28]);
      expect(marked('nile')).toEqual([28, 28, 28]);
    });
    it.each<[string, number[]]>([
      // Two spreads: the chart alone.
      ['quality_control_2', [97]],
      ['quality_control_5', []],
    ])('%s by the chart, to three values', (name, points) => {
      const found = byChart(column(name), 40);
      expect(found).toHaveLength(points.length);
      for (const [at, point] of points.entries()) expect(Math.abs(found[at]! - point)).toBeLessThanOrEqual(3);
    });
    it.each<[string, number]>([
      ['quality_control_1', 1],
      ['quality_control_2', 0],
      ['quality_control_3', 1],
      ['quality_control_4', 1],
      ['quality_control_5', 0],
      ['nile', 0],
      ['run_log', 2],
      ['well_log', 5],
    ])('%s by the watches: %d told, each soon after a point that somebody marked', (name, count) => {
      const points = marked(name);
      const reported = byWatches(column(name));
      expect(reported).toHaveLength(count);
      for (const at of reported)
        expect(points.some((point) => at >= point && at <= point + WITHIN)).toBe(true);
    });
  },
);
