/** Jobs that wait for something never overlap, and one that fails keeps nobody else waiting. */
import { expect, it } from 'vitest';
import { newMutex } from '../src/mutex.ts';

it('runs jobs whole, one after another, in the order in which they were asked for', async () => {
  const mutex = newMutex();
  const seen: string[] = [];
  const job = (name: string, steps: number) => async () => {
    for (let step = 0; step < steps; step++) {
      seen.push(`${name}${step}`);
      await Promise.resolve();
    }
    return name;
  };
  const names = await Promise.all([mutex.run(job('a', 3)), mutex.run(job('b', 1)), mutex.run(job('c', 2))]);
  expect(names).toEqual(['a', 'b', 'c']);
  expect(seen).toEqual(['a0', 'a1', 'a2', 'b0', 'c0', 'c1']);
});

it('hands a failure to its caller alone', async () => {
  const mutex = newMutex();
  const failed = mutex.run(() => Promise.reject(new Error('the disk is full')));
  const next = mutex.run(() => 'done');
  await expect(failed).rejects.toThrow('the disk is full');
  expect(await next).toBe('done');
});
