/**
 * Published trend tests. The first was seen quoted ("Mann Kendall Trend Evaluation",
 * help.earthsoft.com, after US EPA QA/G-9S, EPA/240/B-06/003, p. 109); the outputs of the third in
 * the EnvStats script for US EPA's Unified Guidance 2009, chapter 17 (its data from memory: they
 * reproduce every output); the second is from memory (US EPA QA/G-9). Recomputed here.
 */
export const TRENDS = [
  {
    source: 'US EPA QA/G-9S p. 109, eleven weeks',
    t: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
    x: [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15],
    s: 22,
    variance: 155.3333,
    z: 1.68495,
    slope: 1,
    up: true,
  },
  {
    source: 'US EPA QA/G-9, five points (exact p 0.117: no sure trend)',
    t: [1, 2, 3, 4, 5],
    x: [5, 6, 11, 8, 10],
    s: 6,
    variance: 16.6667,
    z: 1.22474,
    slope: 1.125,
    up: false,
  },
  {
    source: 'US EPA Unified Guidance 2009, example 17-7, sodium',
    t: [89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3],
    x: [56, 53, 51, 55, 52, 60, 62, 59, 61, 63],
    s: 25,
    variance: 125,
    z: 2.146625,
    slope: 1.3333333,
    up: true,
  },
] as const;
