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
  text: string;
}

/** Nothing until both are quantities. */
export function bucketFlow({ volume, time }: Bucket): BucketFlow | undefined {
  const [volumeRead, timeRead] = [parseQuantity(volume, 'volume'), parseQuantity(time, 'duration')];
  if (!('si' in volumeRead) || !('si' in timeRead) || volumeRead.si <= 0 || timeRead.si <= 0)
    return undefined;
  const lPerS = volumeRead.si / timeRead.si;
  return { lPerS, text: `${Number((lPerS * 60).toFixed(4))} L/min` };
}
