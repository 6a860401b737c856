/** A seeded generator of normal values (mulberry32 and Box-Muller): the same on every run. */
export function normals(seed: number): () => number {
  const next = uniforms(seed);
  return () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

/** A seeded generator of values from 0 to 1 (mulberry32). */
export function uniforms(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** AR(1) with unit variance: each value keeps `phi` of the one before. */
export function autoregressive(seed: number, phi: number): () => number {
  const next = normals(seed);
  let value = next();
  return () => (value = phi * value + Math.sqrt(1 - phi * phi) * next());
}
