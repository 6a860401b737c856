/**
 * Pressure between what people say (psi, bar) and what is kept (kPa). Exact by definition: the
 * pound is 0.45359237 kg, the inch 0.0254 m, standard gravity 9.80665 m/s2 (names after NIST SP
 * 811, appendix B).
 */

/** 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2 / 1000. */
const KPA_PER_PSI = 6.894757293168;
const KPA_PER_BAR = 100;

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
