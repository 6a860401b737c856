/** Timers that go only when the test says so, for every test of a file. */
import { afterEach, beforeEach, vi } from 'vitest';

export function useTestTimers(): void {
  beforeEach(
    () => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] }),
  );
  afterEach(() => void vi.useRealTimers());
}
