/** The bench's child processes: each answers, and none outlives whoever started it. */
import { connectAsync } from 'mqtt';
import { afterEach, describe, expect, it } from 'vitest';
import { startChild, type Child } from '../../src/lab/bench/processes.ts';
import type { ChildTask } from '../../src/lab/bench/child.ts';

const started: Child[] = [];

function begin(order: ChildTask): Child {
  const child = startChild(order);
  started.push(child);
  return child;
}

afterEach(() => {
  for (const { process: child } of started.splice(0)) child.kill('SIGKILL');
});

describe('startChild', () => {
  it('starts a broker that forwards to a subscriber that counts, and ends both', async () => {
    const broker = begin({ role: 'broker' });
    const port = (await broker.waitFor('ready'))['port'] as number;
    const subscriber = begin({ role: 'subscriber', port });
    await subscriber.waitFor('ready');
    const client = await connectAsync(`mqtt://127.0.0.1:${port}`, { protocolVersion: 4 });
    for (let i = 0; i < 3; i++) await client.publishAsync('wells/barn/readings', '[]', { qos: 1 });
    await client.publishAsync('wells/barn/hello', '{}', { qos: 1 });
    await client.endAsync();
    expect(await counted(subscriber, 3)).toBe(3);
    await subscriber.end();
    await broker.end();
    expect([subscriber.process.exitCode, broker.process.exitCode]).toEqual([0, 0]);
  });

  it('says which child is gone to whoever waits for its word', async () => {
    const broker = begin({ role: 'broker' });
    await broker.waitFor('ready');
    const waiting = expect(broker.waitFor('count')).rejects.toThrow(
      'Cannot go on with the bench: its broker ended with null',
    );
    broker.process.kill('SIGKILL');
    await waiting;
    await broker.end();
  });

  it('ends by itself when whoever started it is gone', async () => {
    const broker = begin({ role: 'broker' });
    await broker.waitFor('ready');
    const code = new Promise((done) => broker.process.once('exit', done));
    broker.process.disconnect();
    expect(await code).toBe(0);
  });
});

/** Asks until so many have come; the last ones may be on their way still. */
async function counted(subscriber: Child, atLeast: number): Promise<unknown> {
  for (;;) {
    const answer = subscriber.waitFor('count');
    subscriber.send('count');
    const { count } = await answer;
    if ((count as number) >= atLeast) return count;
    await new Promise((done) => setTimeout(done, 10));
  }
}
