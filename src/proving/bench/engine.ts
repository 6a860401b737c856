/** Readings a second through the engine with all its watches, and what a well's state takes in memory and when saved. */
import { readCard } from '../../card/read-card.ts';
import type { Card } from '../../card/card.ts';
import { advance, loadWell, newWell, saveWell, type WellState } from '../../engine/engine.ts';
import { pack } from '../../run/live/save.ts';
import { alderBench } from '../farm.ts';
import { newSimulatedWell, simulate } from '../model/well.ts';
import type { Stretch } from '../../readings/stretch.ts';

const CURRENT = 0;
const PRESSURE = 3;
const PIECE_S = 2000;

function benchCard(): Card {
  const read = readCard(alderBench(0)[0]!.card);
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

/** Stretches of one simulated well at 1 Hz, two channels, made before the clock runs. */
function makeStretches(days: number): Stretch[] {
  const fromMs = Date.UTC(2026, 0, 5);
  const well = newSimulatedWell(alderBench(0)[0]!.params, fromMs);
  const stretches: Stretch[] = [];
  for (let s = 0; s < days * 86_400; s += PIECE_S) {
    const stretch: Stretch = {
      n: 0,
      timeMs: new Float64Array(2 * PIECE_S),
      channel: new Uint8Array(2 * PIECE_S),
      value: new Float64Array(2 * PIECE_S),
      fault: new Uint8Array(2 * PIECE_S),
    };
    simulate(well, fromMs + (s + PIECE_S) * 1000, 1, (sample) => {
      for (const [code, value] of [
        [CURRENT, sample.amps],
        [PRESSURE, Math.round(sample.kpa * 10) * 100],
      ] as const) {
        stretch.timeMs[stretch.n] = sample.tMs;
        stretch.channel[stretch.n] = code;
        stretch.value[stretch.n] = value;
        stretch.n++;
      }
    });
    stretches.push(stretch);
  }
  return stretches;
}

export interface EngineFigures {
  readingsPerS: number;
  events: number;
  stateBytes: number;
  memoryMiBFor1000: number;
}

export function benchEngine(days: number, wells: number): EngineFigures {
  const stretches = makeStretches(days);
  const well = newWell(benchCard());
  let events = 0;
  const began = performance.now();
  for (const stretch of stretches) advance(well, stretch, () => events++);
  const s = (performance.now() - began) / 1000;
  const readings = stretches.reduce((sum, stretch) => sum + stretch.n, 0);
  return {
    readingsPerS: readings / s,
    events,
    stateBytes: pack(well).length,
    memoryMiBFor1000: memoryOf(well, wells) * (1000 / wells),
  };
}

/** Memory of so many wells that have all lived as long as this one, MiB. */
function memoryOf(well: WellState, wells: number): number {
  const bytes = saveWell(well);
  globalThis.gc?.();
  const before = process.memoryUsage().heapUsed;
  const held = Array.from({ length: wells }, () => loadWell(bytes));
  globalThis.gc?.();
  const after = process.memoryUsage().heapUsed;
  return held.length === wells ? (after - before) / 2 ** 20 : Number.NaN;
}
