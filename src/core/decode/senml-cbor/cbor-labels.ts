/** The numbers that CBOR writes for SenML's labels: RFC 8428, section 6, table 4. */
export const CBOR_LABELS = {
  bs: -6,
  bv: -5,
  bu: -4,
  bt: -3,
  bn: -2,
  bver: -1,
  n: 0,
  u: 1,
  v: 2,
  vs: 3,
  vb: 4,
  s: 5,
  t: 6,
  ut: 7,
  vd: 8,
} as const;
