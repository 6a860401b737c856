/** Asks when a page opens, when its question changes, and when it is told to ask again; keeps the old answer until the new one is there. */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { hearNow } from './clock.ts';
import { AskError } from './source.ts';

export type AskedState<T> =
  { is: 'loading' } | { is: 'ready'; value: T } | { is: 'failed'; words: string; missing: boolean };

export interface UseAsked<T> {
  state: AskedState<T>;
  again: () => void;
  /** Puts in what came by the live stream. */
  put: (change: (value: T) => T) => void;
}

/** `key` names the question: a new key is a new question. */
export function useAsked<T>(key: string, ask: () => Promise<T>): UseAsked<T> {
  const [held, setHeld] = useState<{ key: string; state: AskedState<T> }>({ key, state: { is: 'loading' } });
  const [round, setRound] = useState(0);
  const asking = useRef(ask);
  asking.current = ask;
  useEffect(() => {
    let left = false;
    const now = async (): Promise<void> => {
      const answer = await answered(asking.current);
      if (left) return;
      if (answer.is === 'ready') hearNow(answer.value);
      setHeld({ key, state: answer });
    };
    void now();
    return () => {
      left = true;
    };
  }, [key, round]);
  const again = useCallback(() => setRound((n) => n + 1), []);
  const put = useCallback((change: (value: T) => T) => {
    setHeld((now) =>
      now.state.is === 'ready' ? { ...now, state: { is: 'ready', value: change(now.state.value) } } : now,
    );
  }, []);
  return { state: held.key === key ? held.state : { is: 'loading' }, again, put };
}

async function answered<T>(ask: () => Promise<T>): Promise<AskedState<T>> {
  try {
    return { is: 'ready', value: await ask() };
  } catch (error) {
    return failed(error);
  }
}

function failed<T>(error: unknown): AskedState<T> {
  if (error instanceof AskError) return { is: 'failed', words: error.message, missing: error.status === 404 };
  return { is: 'failed', words: 'This page met a fault of its own. Load it again.', missing: false };
}
