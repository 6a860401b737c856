/**
 * Readings a second through the engine with all its watches, and what a well's state takes in
 * memory and when saved.
 */
import { DAY_S } from '../../../shared/units/duration.ts';
import { readCard } from '../../core/domain/read-card.ts';
import type { Card } from '../../core/domain/card.ts';
import { advance, deserializeWell, newWell, serializeWell, type WellState } from '../../core/well/engine.ts';
import { serializeState } from '../../server/live/save.ts';
import { demoWells } from '../demo-wells.ts';
import { newSimulatedWell, simulate } from '../model/well.ts';
import type { Segment } from '../../core/readings/segment.ts';

const CURRENT = 0;
const PRESSURE = 3;
const CHUNK_S = 2000;

function benchCard(): Card {
  const read = readCard(demoWells(0)[0]!.card);
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

/** Stretches of one simulated well at 1 Hz, two channels, made before the clock runs. */
function makeSegments(days: number): Segment[] {
  const fromMs = Date.UTC(2026, 0, 5);
  const well = newSimulatedWell(demoWells(0)[0]!.params, fromMs);
  const segments: Segment[] = [];
  for (let s = 0; s < days * DAY_S; s += CHUNK_S) {
    const segment: Segment = {
      n: 0,
      timeMs: new Float64Array(2 * CHUNK_S),
      channel: new Uint8Array(2 * CHUNK_S),
      value: new Float64Array(2 * CHUNK_S),
      fault: new Uint8Array(2 * CHUNK_S),
    };
    simulate(well, fromMs + (s + CHUNK_S) * 1000, 1, (sample) => {
      for (const [code, value] of [
        [CURRENT, sample.amps],
        [PRESSURE, Math.round(sample.kpa * 10) * 100],
      ] as const) {
        segment.timeMs[segment.n] = sample.tMs;
        segment.channel[segment.n] = code;
        segment.value[segment.n] = value;
        segment.n++;
      }
    });
    segments.push(segment);
  }
  return segments;
}

export interface EngineFigures {
  readingsPerS: number;
  events: number;
  stateBytes: number;
  memoryMiBFor1000: number;
}

export function benchEngine(days: number, wells: number): EngineFigures {
  const segments = makeSegments(days);
  const well = newWell(benchCard());
  let events = 0;
  const began = performance.now();
  for (const segment of segments) advance(well, segment, () => events++);
  const s = (performance.now() - began) / 1000;
  const readings = segments.reduce((sum, segment) => sum + segment.n, 0);
  return {
    readingsPerS: readings / s,
    events,
    stateBytes: serializeState(well).length,
    memoryMiBFor1000: memoryOf(well, wells) * (1000 / wells),
  };
}

/** Memory of so many wells that have all lived as long as this one, MiB. */
function memoryOf(well: WellState, wells: number): number {
  const bytes = serializeWell(well);
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const held = Array.from({ length: wells }, () => deserializeWell(bytes));
  globalThis.gc?.();
  const after = process.memoryUsage().heapUsed;
  return held.length === wells ? (after - before) / 2 ** 20 : Number.NaN;
}
