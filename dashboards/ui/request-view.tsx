/** Loading, failing and emptiness, each said in words. */
import type { ComponentChildren } from 'preact';
import type { RequestState } from '../data/use-request.ts';
import { texts } from './texts.ts';

export function RequestView<T>(props: {
  state: RequestState<T>;
  subject: string;
  reload: () => void;
  children: (value: T) => ComponentChildren;
}) {
  const { state, subject, reload, children } = props;
  switch (state.is) {
    case 'loading':
      return (
        <p class="status" role="status">
          {texts().loading(subject)}
        </p>
      );
    case 'failed':
      return (
        <div class="status" role="alert">
          <p>{texts().cannotShow(subject, state.message)}</p>
          {!state.notFound && (
            <button type="button" onClick={reload}>
              {texts().tryAgain}
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
