/**
 * Now, by the server's clock: a telephone's clock may be wrong, and a written-out copy stands still
 * at the time it was made.
 */
import { useEffect, useState } from 'preact/hooks';

let offsetMs = 0;

/** Takes the server's time from any answer that carries it. */
export function syncClock(answer: unknown): void {
  if (typeof answer !== 'object' || answer === null || !('nowMs' in answer)) return;
  if (typeof answer.nowMs === 'number') offsetMs = answer.nowMs - Date.now();
}

export function nowMs(): number {
  return Date.now() + offsetMs;
}

/** Now, said anew every so often, for "4 min ago". */
export function useNow(everyMs: number): number {
  const [now, setNow] = useState(nowMs);
  useEffect(() => {
    const timer = window.setInterval(() => setNow(nowMs()), everyMs);
    return () => window.clearInterval(timer);
  }, [everyMs]);
  return now;
}
