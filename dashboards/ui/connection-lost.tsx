/** Says so while no live readings come: old numbers must not look new. */
import { texts } from './texts.ts';

export function ConnectionLost({ up }: { up: boolean }) {
  return (
    <p class={up ? 'unseen' : 'status'} role="status">
      {up ? '' : texts().connectionLost}
    </p>
  );
}
