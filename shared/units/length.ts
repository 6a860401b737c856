/**
 * Length: feet and inches to metres. Exact since the international foot of 1959 (NIST SP 811,
 * appendix B).
 */
const M_PER_FT = 0.3048;
const M_PER_IN = 0.0254;
const MM_PER_M = 1000;

export function mFromFt(ft: number): number {
  return ft * M_PER_FT;
}

export function ftFromM(m: number): number {
  return m / M_PER_FT;
}

export function mFromIn(inches: number): number {
  return inches * M_PER_IN;
}

export function inFromM(m: number): number {
  return m / M_PER_IN;
}

export function mFromMm(mm: number): number {
  return mm / MM_PER_M;
}

export function mmFromM(m: number): number {
  return m * MM_PER_M;
}
