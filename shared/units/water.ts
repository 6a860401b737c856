/**
 * Volumes and flows of water. A gallon here is the US gallon, 231 cubic inches exactly; the imperial one is not read, because on
 * a pump plate 'gal' could then mean two things 20 % apart.
 */

/** 231 in3 x (0.254 dm/in)^3. */
const L_PER_GAL = 3.785411784;
const L_PER_M3 = 1000;
const S_PER_MIN = 60;
const S_PER_H = 3600;

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

export function lPerSFromGpm(gpm: number): number {
  return (gpm * L_PER_GAL) / S_PER_MIN;
}

export function gpmFromLPerS(lPerS: number): number {
  return (lPerS * S_PER_MIN) / L_PER_GAL;
}

export function lPerSFromLPerMin(lPerMin: number): number {
  return lPerMin / S_PER_MIN;
}

export function lPerMinFromLPerS(lPerS: number): number {
  return lPerS * S_PER_MIN;
}

export function lPerSFromM3PerH(m3PerH: number): number {
  return (m3PerH * L_PER_M3) / S_PER_H;
}

export function m3PerHFromLPerS(lPerS: number): number {
  return (lPerS * S_PER_H) / L_PER_M3;
}
