/** Choices by a seed, for wells that are drawn and not designed. */
import { seeded } from '../../model/random.ts';

export interface Dice {
  /** Uniform. */
  between: (low: number, high: number) => number;
  oneOf: <T>(list: readonly T[]) => T;
  chance: (p: number) => boolean;
}

export function dice(seed: number): Dice {
  const random = seeded(seed);
  // The first numbers of neighboring seeds are alike.
  for (let i = 0; i < 8; i++) random.next();
  return {
    between: (low, high) => low + (high - low) * random.next(),
    oneOf: (list) => list[Math.floor(random.next() * list.length)]!,
    chance: (p) => random.next() < p,
  };
}
