/**
 * The packs of the bench: 20 readings each (10 s of current and pressure at 1 Hz), of many nodes,
 * made before any clock runs.
 */
import { newSimulatedWell, simulate, type WellParams } from '../model/well.ts';
import { demoWells } from '../demo-wells.ts';
import { encodePackJson } from '../../core/decode/senml-json/encode-pack.ts';

export const PACK_S = 10;

/**
 * Readings of one simulated well in a row: what all nodes of the bench send, each from another
 * place in it.
 */
export interface Track {
  amps: number[];
  pascal: number[];
}

export function makeTrack(seconds: number, seed: number): Track {
  const healthy = demoWells(0)[0]!;
  const params: WellParams = { ...healthy.params, seed };
  const track: Track = { amps: [], pascal: [] };
  const fromMs = Date.UTC(2026, 0, 5, 12);
  simulate(newSimulatedWell(params, fromMs), fromMs + seconds * 1000, 1, (sample) => {
    track.amps.push(sample.amps);
    track.pascal.push(Math.round(sample.kpa * 10) * 100);
  });
  return track;
}

/** Pack `seq` (1, 2, 3 …) of a node, whose first reading is at `fromMs`. */
export function benchPack(
  track: Track,
  node: { name: string; offset: number },
  seq: number,
  fromMs: number,
): Uint8Array {
  const times = new Float64Array(PACK_S);
  const amps = new Float64Array(PACK_S);
  const pascal = new Float64Array(PACK_S);
  for (let i = 0; i < PACK_S; i++) {
    const at = (node.offset + (seq - 1) * PACK_S + i) % track.amps.length;
    times[i] = fromMs + ((seq - 1) * PACK_S + i) * 1000;
    amps[i] = track.amps[at]!;
    pascal[i] = track.pascal[at]!;
  }
  return encodePackJson({
    node: node.name,
    clock: 'utc',
    boot: 7,
    seq,
    columns: [
      { channel: 'current', times, values: amps },
      { channel: 'pressure', times, values: pascal },
    ],
  });
}
