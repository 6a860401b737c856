/**
 * Pressure between what people say (psi, bar, feet of water) and what is kept (kPa). Exact by definition: the pound is
 * 0.45359237 kg, the inch 0.0254 m, standard gravity 9.80665 m/s2 (names after NIST SP 811, appendix B).
 */

/** 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2 / 1000. */
const KPA_PER_PSI = 6.894757293168;
const KPA_PER_BAR = 100;
/** Conventional foot of water: 0.3048 m x 1000 kg/m3 x 9.80665 m/s2 / 1000. */
const KPA_PER_FOOT_OF_WATER = 2.98906692;

export function kpaFromPsi(psi: number): number {
  return psi * KPA_PER_PSI;
}

export function psiFromKpa(kpa: number): number {
  return kpa / KPA_PER_PSI;
}

export function kpaFromBar(bar: number): number {
  return bar * KPA_PER_BAR;
}

export function barFromKpa(kpa: number): number {
  return kpa / KPA_PER_BAR;
}

export function kpaFromFeetOfWater(ft: number): number {
  return ft * KPA_PER_FOOT_OF_WATER;
}

export function feetOfWaterFromKpa(kpa: number): number {
  return kpa / KPA_PER_FOOT_OF_WATER;
}
