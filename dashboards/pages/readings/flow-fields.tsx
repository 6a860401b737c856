/**
 * A flow by bucket and watch: how much ran and how long it took, with the flow that comes of it.
 */
import type { Bucket, BucketFlow } from '../../../shared/quantity/bucket-flow.ts';
import { READING_WORDS } from '../../../shared/text/en/checks/reading-words.ts';
import { useAppContext } from '../../data/settings.ts';
import { texts } from './texts.ts';

export function FlowFields(props: {
  bucket: Bucket;
  flow: BucketFlow | undefined;
  change: (to: Bucket) => void;
}) {
  const { bucket, flow, change } = props;
  const { units } = useAppContext();
  return (
    <div class="fields">
      <label class="field">
        {texts().bucketVolume}
        <input
          type="text"
          maxLength={40}
          placeholder={units === 'us' ? '5 gal' : '20 L'}
          value={bucket.volume}
          onInput={(event) => change({ ...bucket, volume: event.currentTarget.value })}
        />
      </label>
      <label class="field">
        {texts().bucketTime}
        <input
          type="text"
          maxLength={40}
          placeholder={texts().timeExample}
          value={bucket.time}
          onInput={(event) => change({ ...bucket, time: event.currentTarget.value })}
        />
      </label>
      <p role="status">{flow && texts().flowIs(READING_WORDS.flow.format(flow.lPerS, units))}</p>
    </div>
  );
}
