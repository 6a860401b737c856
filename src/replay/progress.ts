/**
 * A bar on stderr for a person who waits: only on a terminal, and only once it has taken two
 * seconds.
 */
import { SingleBar } from 'cli-progress';

const SHOW_AFTER_MS = 2_000;

export interface Progress {
  update: (bytes: number) => void;
  stop: () => void;
}

/**
 * `totalBytes` 0 where it can't be known (stdin): then there is nothing to measure by, and no bar.
 */
export function newProgress(totalBytes: number, wanted: boolean, label: string): Progress {
  if (!wanted || totalBytes === 0) return { update: () => undefined, stop: () => undefined };
  const beganMs = performance.now();
  const bar = new SingleBar({
    format: `${label} [{bar}] {percentage} %, {eta_formatted} left`,
    stream: process.stderr,
    clearOnComplete: true,
    hideCursor: true,
  });
  let shown = false;
  return {
    update(bytes) {
      if (shown) bar.update(bytes);
      else if (performance.now() - beganMs > SHOW_AFTER_MS) {
        bar.start(totalBytes, bytes);
        shown = true;
      }
    },
    stop() {
      if (shown) bar.stop();
    },
  };
}
