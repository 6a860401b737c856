/**
 * Seeded randomness for the simulated wells: the same seed gives the same farm, so a failing case
 * can be run again.
 */
export interface Random {
  /** Uniform in [0, 1). */
  next: () => number;
  /** Normal with mean 0 and deviation 1. */
  normal: () => number;
}

/**
 * The 32-bit generator known as mulberry32 (public domain, T. Ettinger), with Box-Muller for the
 * normal.
 */
export function seeded(seed: number): Random {
  let a = seed >>> 0;
  let spare: number | undefined;
  const next = (): number => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - next()));
    const angle = 2 * Math.PI * next();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { next, normal };
}
