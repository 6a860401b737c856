/**
 * Motor power. Horsepower is the mechanical one, 550 ft lbf/s, as on North American pump plates.
 */

/** 550 x 0.3048 m x 0.45359237 kg x 9.80665 m/s2, to the last digit that a double holds. */
const W_PER_HP = 745.6998715822702;
const W_PER_KW = 1000;

export function wFromHp(hp: number): number {
  return hp * W_PER_HP;
}

export function hpFromW(w: number): number {
  return w / W_PER_HP;
}

export function wFromKw(kw: number): number {
  return kw * W_PER_KW;
}

export function kwFromW(w: number): number {
  return w / W_PER_KW;
}
