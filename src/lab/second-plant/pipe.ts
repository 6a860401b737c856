/** Water in pipes: friction, holes, and the blow of a flow that stops. */

const GRAVITY = 9.80665;
/** Of plastic pipe; old steel has 100 (Hazen and Williams, Hydraulic Tables; from memory). */
const ROUGHNESS = 140;
const WATER_KG_PER_L = 1;

/**
 * Friction head in m by Hazen and Williams in SI: 10.67 L Q^1.852 / (C^1.852 d^4.87), Q in m3/s
 * (J. Lamont, Formulae for Pipeline Calculations; from memory).
 */
export function frictionM(pipe: { lengthM: number; diameterM: number }, lPerS: number): number {
  const m3PerS = Math.abs(lPerS) / 1000;
  return (10.67 * pipe.lengthM * m3PerS ** 1.852) / (ROUGHNESS ** 1.852 * pipe.diameterM ** 4.87);
}

/** The same as m for each (L/s)^2, about a flow: what a quadratic curve can be joined with. */
export function frictionSlope(pipe: { lengthM: number; diameterM: number }, lPerS: number): number {
  const flow = Math.max(0.05, Math.abs(lPerS));
  return frictionM(pipe, flow) / (flow * flow);
}

export function pipeAreaM2(diameterM: number): number {
  return (Math.PI / 4) * diameterM * diameterM;
}

/** Static pressure at a tee is lower than the total by the velocity head, kPa (Bernoulli). */
export function velocityKpa(lPerS: number, diameterM: number): number {
  const mPerS = lPerS / 1000 / pipeAreaM2(diameterM);
  return 0.5 * WATER_KG_PER_L * mPerS * mPerS;
}

/** Joukowsky: a flow that stops at once raises pressure by density x celerity x velocity, kPa. */
export function joukowskyKpa(celerityMPerS: number, changeMPerS: number): number {
  return WATER_KG_PER_L * celerityMPerS * changeMPerS;
}

export function kpaOfHead(m: number): number {
  return m * GRAVITY * WATER_KG_PER_L;
}

export function headOfKpa(kpa: number): number {
  return kpa / (GRAVITY * WATER_KG_PER_L);
}
