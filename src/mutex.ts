/**
 * Runs jobs one after another, in the order in which they were asked for: none begins before the
 * one before has settled. It guards state that a job changes and then waits for the store: nobody
 * else sees or changes it meanwhile. A job never asks for the mutex it runs in.
 */
export interface Mutex {
  /** Settles as the job does. */
  run<T>(job: () => T | Promise<T>): Promise<T>;
}

export function newMutex(): Mutex {
  let last: Promise<unknown> = Promise.resolve();
  return {
    run(job) {
      const done = last.then(job);
      // A job that failed is its caller's business, and keeps nobody else waiting.
      last = done.catch(() => undefined);
      return done;
    },
  };
}
