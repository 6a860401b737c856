/**
 * Which values no well can show. The bounds are absurdities, not alarm limits: what lies outside is
 * a wrong unit or a broken decoder in the node, never a reading. They stand in
 * firmware-contract/contract.md.
 */
import type { BaseChannel } from './channels.ts';

export interface Bounds {
  low: number;
  high: number;
}

/** Lowest and highest value that is taken, in the channel's unit. */
export const VALUE_BOUNDS: Record<BaseChannel, Bounds> = {
  /** A clamp's zero may sit a little under 0; no private well's motor draws 1,000 A. */
  current: { low: -1, high: 1000 },
  'current-2': { low: -1, high: 1000 },
  'current-3': { low: -1, high: 1000 },
  /** 10 MPa is 1,000 m of water. */
  pressure: { low: -10e6, high: 10e6 },
  voltage: { low: -1, high: 2000 },
  'voltage-2': { low: -1, high: 2000 },
  'voltage-3': { low: -1, high: 2000 },
  flow: { low: -10, high: 10 },
  level: { low: -1000, high: 5000 },
  store: { low: -1000, high: 1000 },
  contact: { low: 0, high: 1 },
  temperature: { low: -100, high: 200 },
  /**
   * A meter's zero may sit a little under 0, or its clamp the wrong way round; 1 MW is no well's.
   */
  power: { low: -1e6, high: 1e6 },
  'power-factor': { low: -1, high: 1 },
};
