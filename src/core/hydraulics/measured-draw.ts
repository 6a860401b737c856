/**
 * The measured-draw test: with the pump off, draw a measured amount between two pressures that have
 * come to rest, and the tank's air charge follows without draining the tank. Boyle both times:
 * drawn = charge x (1/after - 1/before), absolute. Where the tank ran empty on the way, drawn =
 * volume - charge / before holds instead. Two pressures alone can't tell which; the person drawing
 * can, because the flow dies and the pressure falls away at once.
 */
import { atmosphereKpa } from './tank.ts';

export interface MeasuredDraw {
  drawnL: number;
  /**
   * Gauge, each read a few minutes after pump and draw came to rest, so that the air has the room's
   * temperature.
   */
  beforeKpa: number;
  afterKpa: number;
  altitudeM: number;
  /** The flow died and the pressure fell away before the draw was done. */
  pressureCollapsed?: boolean;
  /** Without it only the product of volume and precharge is found. */
  volumeL?: number;
  /**
   * How well the draw and a pressure were measured; a bucket and a common transducer where not
   * given.
   */
  drawnErrorL?: number;
  pressureErrorKpa?: number;
}

export type DrawResult =
  | {
      is: 'found';
      /** Absolute precharge x volume, kPa L. */
      airKpaL: number;
      /** Share of it that the measuring leaves open, one standard error. */
      errorRatio: number;
      /** Gauge precharge, and whether the tank ran empty in the test. */
      prechargeKpa?: number;
      ranEmpty: boolean;
    }
  | { is: 'not-found'; because: 'pressure-did-not-fall' | 'fell-too-little' | 'more-than-the-tank' };

/**
 * A marked bucket is read to 3 % (common practice, no source); 0.7 kPa is 0.1 psi, the last digit
 * of a common gauge.
 */
const BUCKET_ERROR_RATIO = 0.03;
const TRANSDUCER_ERROR_KPA = 0.7;
/** A fall that its own measuring error makes this uncertain says nothing. */
const MAX_ERROR_RATIO = 0.35;

/** Air charge from one measured draw. See `MeasuredDraw` for units. */
export function airChargeFromDraw(draw: MeasuredDraw): DrawResult {
  const atmosphere = atmosphereKpa(draw.altitudeM);
  const before = draw.beforeKpa + atmosphere;
  const after = draw.afterKpa + atmosphere;
  const { drawnL, volumeL } = draw;
  if (!(before > after) || !(after > 0) || !(drawnL > 0))
    return { is: 'not-found', because: 'pressure-did-not-fall' };
  if (volumeL !== undefined && drawnL >= volumeL) return { is: 'not-found', because: 'more-than-the-tank' };
  const errorRatio = errorRatioOf(draw, before, after);
  if (errorRatio > MAX_ERROR_RATIO) return { is: 'not-found', because: 'fell-too-little' };
  const airKpaL = drawnL / (1 / after - 1 / before);
  if (volumeL === undefined) return { is: 'found', airKpaL, errorRatio, ranEmpty: false };
  // Less than no gauge precharge can't be: then it was empty, whatever was said.
  const ranEmpty = draw.pressureCollapsed === true || airKpaL < volumeL * atmosphere;
  const charge = ranEmpty ? (volumeL - drawnL) * before : airKpaL;
  return { is: 'found', airKpaL: charge, errorRatio, prechargeKpa: charge / volumeL - atmosphere, ranEmpty };
}

/** Errors of the draw and of both pressures, taken together. */
function errorRatioOf(draw: MeasuredDraw, before: number, after: number): number {
  const { drawnErrorL = draw.drawnL * BUCKET_ERROR_RATIO, pressureErrorKpa = TRANSDUCER_ERROR_KPA } = draw;
  const apart = 1 / after - 1 / before;
  const byPressure = (pressureErrorKpa * Math.hypot(1 / after ** 2, 1 / before ** 2)) / apart;
  return Math.hypot(drawnErrorL / draw.drawnL, byPressure);
}
