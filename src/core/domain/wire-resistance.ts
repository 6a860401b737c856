/**
 * What the wire to a motor adds: ohms to a winding that is read at the box, and the volts that are
 * lost on the way down. By the physics: R = resistivity x length / area. Copper has 0.01724 ohm
 * mm2/m at 20 C (the annealed-copper standard, IEC 60028) and aluminum 0.0282, both from memory; a
 * wire that is 10 C colder or warmer has 4 % less or more. The reactance of such cables is small
 * beside this and left out.
 */
import type { WireDescription } from './description.ts';

const RESISTIVITY_OHM_MM2_PER_M = { copper: 0.01724, aluminum: 0.0282 } as const;

/** Of one conductor from box to motor; undefined where a size or length is not on the card. */
export function conductorOhm(wire: WireDescription | undefined): number | undefined {
  if (!wire) return undefined;
  const { buriedMm2, buriedLengthM, buriedMaterial, dropMm2, dropLengthM, dropMaterial } = wire;
  const parts = [
    partOhm(buriedMm2, buriedLengthM, buriedMaterial),
    partOhm(dropMm2, dropLengthM, dropMaterial),
  ].filter((ohm) => ohm !== 'not-said');
  if (parts.length === 0) return undefined;
  let sum = 0;
  for (const ohm of parts) {
    if (ohm === undefined) return undefined;
    sum += ohm;
  }
  return sum;
}

/** Copper where the card does not say: aluminum is rare down a well, and who has it says so. */
function partOhm(
  mm2: number | undefined,
  lengthM: number | undefined,
  material: keyof typeof RESISTIVITY_OHM_MM2_PER_M = 'copper',
): number | 'not-said' | undefined {
  if (mm2 === undefined && lengthM === undefined) return 'not-said';
  if (mm2 === undefined || lengthM === undefined) return undefined;
  return (RESISTIVITY_OHM_MM2_PER_M[material] * lengthM) / mm2;
}

/** A winding is read through two conductors, there and back. */
export function loopOhm(wire: WireDescription | undefined): number | undefined {
  const ohm = conductorOhm(wire);
  return ohm === undefined ? undefined : 2 * ohm;
}

export interface WireLoad {
  amps: number;
  volts: number;
  phase: 1 | 3;
}

export interface VoltDrop {
  volts: number;
  /** Of the motor's volts. */
  ratio: number;
}

/** There and back for a single-phase motor; the root of three for three lines. */
export function voltDrop(
  wire: WireDescription | undefined,
  { amps, volts, phase }: WireLoad,
): VoltDrop | undefined {
  const ohm = conductorOhm(wire);
  if (ohm === undefined) return undefined;
  const lost = amps * ohm * (phase === 3 ? Math.sqrt(3) : 2);
  return { volts: lost, ratio: lost / volts };
}

/** Makers' cable tables are made for a drop of 5 % (a motor maker's installation manual). */
export const MAX_DROP_RATIO = 0.05;
