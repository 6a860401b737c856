/**
 * A tee that rings: a flow that changes at once sends a pressure wave to and fro between check
 * valve and tank, and it dies away within seconds. How high it is follows Joukowsky (J. Parmakian,
 * Waterhammer Analysis; from memory). The tank close by swallows nearly all of it: what it leaves,
 * and for how long, is common practice without a source.
 */
import { joukowskyKpa, pipeAreaM2 } from './pipe.ts';

/** In plastic pipe. */
const CELERITY_M_PER_S = 400;
const LEFT_BY_TANK = 0.04;
const RADIANS_A_S = 2 * Math.PI * 1.3;
const DIES_S = 0.9;
/** Lower than what a transducer shows. */
const SILENT_KPA = 0.05;

export interface Ring {
  kpa: number;
  sinceMs: number;
}

export function strike(ring: Ring, tMs: number, changeLPerS: number, diameterM: number): void {
  const mPerS = changeLPerS / 1000 / pipeAreaM2(diameterM);
  ring.kpa = ringKpa(ring, tMs) + LEFT_BY_TANK * joukowskyKpa(CELERITY_M_PER_S, mPerS);
  ring.sinceMs = tMs;
}

export function ringKpa(ring: Ring, tMs: number): number {
  if (ring.kpa === 0) return 0;
  const s = (tMs - ring.sinceMs) / 1000;
  const height = ring.kpa * Math.exp(-s / DIES_S);
  if (Math.abs(height) < SILENT_KPA) {
    ring.kpa = 0;
    return 0;
  }
  return height * Math.cos(RADIANS_A_S * s);
}
