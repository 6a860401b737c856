/**
 * The warmth of the air in the tank. Squeezed fast, air warms and stands higher than Boyle says;
 * then it cools over minutes and the pressure falls though nobody draws water. A fast draw cools it
 * the same way. Within a fill the exponent lies between 1.4 (no heat lost) and 1 (all of it), and
 * this is the one-room model behind that: dT/T = -(gamma - 1) dV/V - (T - room) dt / cooling.
 * Written for a measured pressure it is a high pass of ln P, so one number follows it reading by
 * reading. Without it a fill's litres come out 10 to 25 % high. Gamma of air 1.4: any
 * thermodynamics text. The air close to wall and water keeps their temperature, so that a fill
 * warms the whole of it by less: by a share of what that model says. Share and time constant differ
 * from tank to tank and are learnt.
 */

/** (gamma - 1) / gamma of air. */
export const ADIABATIC_EXPONENT = 0.4 / 1.4;

/** How the air of one tank warms and cools. */
export interface AirResponse {
  /** Time constant at rest, s; 0 keeps the air at room warmth (Boyle). */
  coolingS: number;
  /** Of the warmth that the air would have without wall and water, 1 = all of it. */
  warmRatio: number;
}

/** Before this tank's own is learnt. */
export const DEFAULT_RESPONSE: Readonly<AirResponse> = { coolingS: 30, warmRatio: 1 };

export interface AirState {
  /** ln of the air's temperature over the room's, K/K. */
  warmth: number;
  lnAbsolute: number;
  atMs: number;
}

/** Air that has rested: as warm as the room. */
export function newAirState(atMs: number, absoluteKpa: number): AirState {
  return { warmth: 0, lnAbsolute: Math.log(absoluteKpa), atMs };
}

/** Follows the air to its next pressure, in place. */
export function advanceAir(air: AirState, atMs: number, absoluteKpa: number, response: AirResponse): void {
  const lnAbsolute = Math.log(absoluteKpa);
  const lnRise = (lnAbsolute - air.lnAbsolute) * response.warmRatio;
  air.warmth = warmthAfter(air.warmth, (atMs - air.atMs) / 1000, lnRise, response.coolingS);
  air.lnAbsolute = lnAbsolute;
  air.atMs = atMs;
}

/**
 * Warmth after `elapsedS` in which ln P changed evenly by `lnRise`, of air that takes all of it. At
 * measured pressure the time constant is gamma x cooling.
 */
export function warmthAfter(warmth: number, elapsedS: number, lnRise: number, coolingS: number): number {
  if (coolingS <= 0) return 0;
  const x = (elapsedS * (1 - ADIABATIC_EXPONENT)) / coolingS;
  // Short steps are nearly all: exp(-x) as (2 - x) / (2 + x), 1e-4 off at most.
  if (x < 0.1) return (warmth * (2 - x) + 2 * ADIABATIC_EXPONENT * lnRise) / (2 + x);
  const kept = Math.exp(-x);
  return warmth * kept + (ADIABATIC_EXPONENT * lnRise * (1 - kept)) / x;
}

/**
 * Room that the air takes per unit of air charge, 1/kPa: times `airKpaL` it is litres. Falls while
 * the tank fills. The exponential is written out: warmth stays within 0.15, where five terms are
 * good to 1e-6.
 */
export function airVolumeOf(air: AirState, absoluteKpa: number): number {
  const w = air.warmth;
  return (1 + w * (1 + (w / 2) * (1 + (w / 3) * (1 + w / 4)))) / absoluteKpa;
}
