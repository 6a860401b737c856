/**
 * Volumes and flows of water. A gallon here is the US gallon, 231 cubic inches exactly; the
 * imperial one is not read, because on a pump plate 'gal' could then mean two things 20 % apart.
 */
import { HOUR_S, MINUTE_S } from './duration.ts';

/** 231 in3 x (0.254 dm/in)^3. */
const L_PER_GAL = 3.785411784;
const L_PER_M3 = 1000;
/** 43,560 ft2 x 1 ft, the foot of 3.048 dm. */
const L_PER_ACRE_FT = 43_560 * 3.048 ** 3;

export function lFromGal(gal: number): number {
  return gal * L_PER_GAL;
}

export function galFromL(l: number): number {
  return l / L_PER_GAL;
}

export function lFromM3(m3: number): number {
  return m3 * L_PER_M3;
}

export function m3FromL(l: number): number {
  return l / L_PER_M3;
}

export function lFromAcreFt(acreFt: number): number {
  return acreFt * L_PER_ACRE_FT;
}

export function acreFtFromL(l: number): number {
  return l / L_PER_ACRE_FT;
}

export function lPerSFromGpm(gpm: number): number {
  return (gpm * L_PER_GAL) / MINUTE_S;
}

export function gpmFromLPerS(lPerS: number): number {
  return (lPerS * MINUTE_S) / L_PER_GAL;
}

export function lPerSFromLPerMin(lPerMin: number): number {
  return lPerMin / MINUTE_S;
}

export function lPerMinFromLPerS(lPerS: number): number {
  return lPerS * MINUTE_S;
}

export function lPerSFromM3PerH(m3PerH: number): number {
  return (m3PerH * L_PER_M3) / HOUR_S;
}

export function m3PerHFromLPerS(lPerS: number): number {
  return (lPerS * HOUR_S) / L_PER_M3;
}
