/**
 * A page that is fetched when it is first opened: whoever looks at the list of wells over a slow
 * link does not wait for forms that nobody opened. It is then there for as long as the tab is.
 */
import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { texts } from './texts.ts';

export function lazyPage<P extends object>(fetchPage: () => Promise<ComponentType<P>>): ComponentType<P> {
  let Fetched: ComponentType<P> | undefined;
  return function Later(props: P) {
    const [state, setState] = useState<'fetching' | 'there' | 'failed'>(Fetched ? 'there' : 'fetching');
    const load = async (): Promise<void> => {
      try {
        Fetched ??= await fetchPage();
        setState('there');
      } catch {
        setState('failed');
      }
    };
    useEffect(() => void load(), []);
    if (Fetched) return <Fetched {...props} />;
    if (state !== 'failed')
      return (
        <p class="status" role="status">
          {texts().loadingPage}
        </p>
      );
    return (
      <div class="status" role="alert">
        <p>{texts().pageNotLoaded}</p>
        <button type="button" onClick={() => location.reload()}>
          {texts().tryAgain}
        </button>
      </div>
    );
  };
}
