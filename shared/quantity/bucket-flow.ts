/** A flow by bucket and watch: how much ran over how long it took. */
import { parseQuantity } from './parse-quantity.ts';

/** As typed, with units. */
export interface Bucket {
  volume: string;
  time: string;
}

export interface BucketFlow {
  lPerS: number;
  /** As it is kept, with digits enough that volume over time is this again. */
  value: string;
}

/** Nothing until both are quantities. */
export function flowOf({ volume, time }: Bucket): BucketFlow | undefined {
  const [ran, took] = [parseQuantity(volume, 'volume'), parseQuantity(time, 'duration')];
  if (!('si' in ran) || !('si' in took) || ran.si <= 0 || took.si <= 0) return undefined;
  const lPerS = ran.si / took.si;
  return { lPerS, value: `${Number((lPerS * 60).toFixed(4))} L/min` };
}
