/**
 * Asks when a page opens, when its question changes, and when it is told to ask again; keeps the
 * old answer until the new one is there.
 */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { syncClock } from './clock.ts';
import { RequestError } from './source.ts';
import { texts } from '../texts.ts';

export type RequestState<T> =
  { is: 'loading' } | { is: 'ready'; value: T } | { is: 'failed'; message: string; notFound: boolean };

export interface RequestHandle<T> {
  state: RequestState<T>;
  reload: () => void;
  /** Puts in what came by the live stream. */
  update: (change: (value: T) => T) => void;
}

/** `key` names the question: a new key is a new question. */
export function useRequest<T>(key: string, ask: () => Promise<T>): RequestHandle<T> {
  const [current, setCurrent] = useState<{ key: string; state: RequestState<T> }>({
    key,
    state: { is: 'loading' },
  });
  const [round, setRound] = useState(0);
  const latestAsk = useRef(ask);
  latestAsk.current = ask;
  useEffect(() => {
    let cancelled = false;
    const now = async (): Promise<void> => {
      const answer = await runRequest(latestAsk.current);
      if (cancelled) return;
      if (answer.is === 'ready') syncClock(answer.value);
      setCurrent({ key, state: answer });
    };
    void now();
    return () => {
      cancelled = true;
    };
  }, [key, round]);
  const reload = useCallback(() => setRound((n) => n + 1), []);
  const update = useCallback((change: (value: T) => T) => {
    setCurrent((now) =>
      now.state.is === 'ready' ? { ...now, state: { is: 'ready', value: change(now.state.value) } } : now,
    );
  }, []);
  return { state: current.key === key ? current.state : { is: 'loading' }, reload, update };
}

async function runRequest<T>(ask: () => Promise<T>): Promise<RequestState<T>> {
  try {
    return { is: 'ready', value: await ask() };
  } catch (error) {
    return toFailure(error);
  }
}

function toFailure<T>(error: unknown): RequestState<T> {
  if (error instanceof RequestError)
    return { is: 'failed', message: error.message, notFound: error.status === 404 };
  return { is: 'failed', message: texts().pageFailed, notFound: false };
}
