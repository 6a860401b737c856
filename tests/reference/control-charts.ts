/**
 * Published control charts and average run lengths, each with its source. The pages and papers
 * themselves were not at hand: values are as quoted in public packages that cite them (named), and
 * were recomputed here.
 */

/**
 * CUSUM, NIST/SEMATECH e-Handbook 6.3.2.3; data as in CRAN package vMask's manual. Half-way ties
 * are printed rounded both ways (14.445 as 14.44, 19.035 as 19.04): compare within 0.0051.
 */
export const NIST_CUSUM = {
  target: 325,
  k: 0.3175,
  h: 4.1959,
  x: [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15,
    328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ],
  high: [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.0, 19.04],
  low: [0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  /** 1-based. */
  firstSignal: 14,
  tolerance: 0.0051,
} as const;

/**
 * EWMA, NIST/SEMATECH e-Handbook 6.3.2.4. Its lower limit is printed 47.4115, since it rounds
 * sqrt(0.3/1.7) to 0.4201; unrounded it is 47.41157: compare limits within 2e-4.
 */
export const NIST_EWMA = {
  lambda: 0.3,
  start: 50,
  sigma: 2.0539,
  width: 3,
  upper: 52.5884,
  lower: 47.4115,
  x: [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6,
    52.1,
  ],
  ewma: [
    50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
    49.92, 50.73, 51.23, 51.94, 51.99,
  ],
  tolerance: 0.0051,
  limitTolerance: 2e-4,
} as const;

/**
 * Two-sided CUSUM, k 0.5, h 4: Lucas & Crosier 1982, Table 1, as quoted in CRAN spc, xcusum.arl.Rd.
 * [shift in sigma, ARL, ARL with head start h/2].
 */
export const LUCAS_CROSIER: readonly (readonly [number, number, number])[] = [
  [0, 168, 149],
  [0.25, 74.2, 62.7],
  [0.5, 26.6, 20.1],
  [0.75, 13.3, 8.97],
  [1, 8.38, 5.29],
  [1.5, 4.75, 2.86],
  [2, 3.34, 2.01],
  [2.5, 2.62, 1.59],
  [3, 2.19, 1.32],
  [4, 1.71, 1.07],
  [5, 1.31, 1.01],
];

/**
 * Two-sided CUSUM, k 0.5, h 5: Montgomery and NIST 6.3.2.3.1 (from memory); 465.44 at shift 0 and
 * the rest recomputed by an integral equation.
 */
export const CUSUM_H5: readonly (readonly [number, number])[] = [
  [0, 465.44],
  [0.25, 139.49],
  [0.5, 38.0],
  [0.75, 17.05],
  [1, 10.38],
  [2, 4.01],
  [3, 2.57],
];

/**
 * One-sided CUSUM: k 0.5, h 3 (Brook & Evans 1972) and k 0.25, h 8 (SAS/QC manual 1999), as quoted
 * in CRAN spc. [k, h, shift, ARL].
 */
export const ONE_SIDED: readonly (readonly [number, number, number, number])[] = [
  [0.5, 3, 0, 117.59],
  [0.5, 3, 1.5, 3.75],
  [0.25, 8, 2.5, 4.1500836225],
];

/**
 * Two-sided EWMA: Lucas & Saccucci 1990, Table 3, as quoted in CRAN spc, xewma.arl.Rd. [shift,
 * lambda 0.5 L 3.071, lambda 0.03 L 2.437].
 */
export const LUCAS_SACCUCCI: readonly (readonly [number, number, number])[] = [
  [0, 500, 500],
  [0.25, 255, 76.7],
  [0.5, 88.8, 29.3],
  [0.75, 35.9, 17.6],
  [1, 17.5, 12.6],
  [1.5, 6.53, 8.07],
  [2, 3.63, 5.99],
  [3, 1.93, 4.03],
  [4, 1.34, 3.11],
];

/**
 * Two-sided EWMA of the weight in use, lambda 0.1, L 2.814: L from memory (Lucas & Saccucci 1990
 * after Montgomery), run lengths recomputed by an integral equation.
 */
export const EWMA_TENTH: readonly (readonly [number, number])[] = [
  [0, 499.58],
  [0.25, 106.32],
  [0.5, 31.3],
  [0.75, 15.85],
  [1, 10.33],
  [1.5, 6.08],
  [2, 4.36],
  [3, 2.87],
  [4, 2.19],
];

/** EWMA lambda 0.25, L 3, shift 1: SAS/QC manual 1999, as quoted in CRAN spc. */
export const SAS_EWMA = { lambda: 0.25, width: 3, shift: 1, arl: 11.154267016 } as const;

/**
 * Uranium data: Tietjen & Moore 1972 in NIST/SEMATECH 1.3.5.17.1, as transcribed in a public
 * checker.
 */
export const URANIUM = {
  x: [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57],
  median: 201.37,
  mad: 0.995,
} as const;
