/**
 * What a node is fitted to, whichever plant the well is of: its name, its lines, its instruments.
 */
export interface MeteredWell {
  name: string;
  seed: number;
  pumps: { pumps: readonly { phase: 1 | 3; volts: number }[] };
  clamp: { stepA: number; maxA: number };
  transducer: { stepKpa: number };
}
