/**
 * What one message may be at most, and which values no well can show. The limits keep a broken or hostile sender from costing
 * more than a fixed amount of work; the bounds are absurdities, not alarm limits: what lies outside is a wrong unit or a broken
 * decoder in the node, never a reading. Both stand in firmware-contract/contract.md.
 */
import type { BaseChannel } from './channels.ts';

/** The contract's limit on a payload, 128 KiB: 2,000 records of 65 bytes. */
export const MAX_PAYLOAD_BYTES = 128 * 1024;

/** The contract's limit on a pack. A steady 10 Hz for 10 s on 15 channels is 1,500. */
export const MAX_RECORDS = 2000;

/** A pack nests 2 deep and a hello 4; twice that leaves room for fields that are not ours. */
export const MAX_DEPTH = 8;

/** RFC 8428, section 4.5.3: from here on a time is Unix seconds, below it is relative to now. */
export const ABSOLUTE_FROM_S = 2 ** 28;

/** Farther from 1970 than this no calendar library can go (ECMA-262, time values): 100 million days. */
export const MAX_TIME_S = 8.64e12;

/** RFC 8428, section 4.4: the version of SenML that this reader understands. */
export const SENML_VERSION = 10;

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
};
