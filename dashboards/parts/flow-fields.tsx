/** A flow by bucket and watch: how much ran and how long it took, with the flow that comes of it. */
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import { READING_WORDS } from '../../shared/words/reading-words.ts';
import { useSurroundings } from '../data/settings.ts';

/** As typed, with units. */
export interface Bucket {
  volume: string;
  time: string;
}

interface Flow {
  lPerS: number;
  /** As it is kept, with digits enough that volume over time is this again. */
  value: string;
}

export function FlowFields(props: { bucket: Bucket; flow: Flow | undefined; change: (to: Bucket) => void }) {
  const { bucket, flow, change } = props;
  const { units } = useSurroundings();
  return (
    <div class="fields">
      <label class="field">
        How much ran, if by bucket
        <input
          type="text"
          maxLength={40}
          placeholder={units === 'us' ? '5 gal' : '20 L'}
          value={bucket.volume}
          onInput={(event) => change({ ...bucket, volume: event.currentTarget.value })}
        />
      </label>
      <label class="field">
        How long it took
        <input
          type="text"
          maxLength={40}
          placeholder="48 s"
          value={bucket.time}
          onInput={(event) => change({ ...bucket, time: event.currentTarget.value })}
        />
      </label>
      <p role="status">{flow && `That is ${READING_WORDS.flow.say(flow.lPerS, units)}.`}</p>
    </div>
  );
}

/** Nothing until both are quantities. */
export function flowOf({ volume, time }: Bucket): Flow | undefined {
  const [ran, took] = [parseQuantity(volume, 'volume'), parseQuantity(time, 'duration')];
  if (!('si' in ran) || !('si' in took) || ran.si <= 0 || took.si <= 0) return undefined;
  const lPerS = ran.si / took.si;
  return { lPerS, value: `${Number((lPerS * 60).toFixed(4))} L/min` };
}
