/** Loading, failing and emptiness, each said in words. */
import type { ComponentChildren } from 'preact';
import type { AskedState } from '../data/use-asked.ts';

export function Said<T>(props: {
  state: AskedState<T>;
  what: string;
  again: () => void;
  children: (value: T) => ComponentChildren;
}) {
  const { state, what, again, children } = props;
  switch (state.is) {
    case 'loading':
      return (
        <p class="said" role="status">
          Fetching {what} …
        </p>
      );
    case 'failed':
      return (
        <div class="said" role="alert">
          <p>
            Could not show {what}. {state.words}
          </p>
          {!state.missing && (
            <button type="button" onClick={again}>
              Try again
            </button>
          )}
        </div>
      );
    case 'ready':
      return <>{children(state.value)}</>;
    default:
      return state satisfies never;
  }
}
