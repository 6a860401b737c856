/**
 * Messages a second from 200 connections to committed and evaluated, as a share of what a
 * subscriber that does nothing takes from the same broker in the same run; and how long a notice
 * takes at half that load.
 */
import type { LoadTask } from './load.ts';
import { startChild, type Child } from './processes.ts';

export interface EndToEnd {
  noOpPerS: number;
  oursPerS: number;
  ratio: number;
  cpuUs: number;
  noOpCpuUs: number;
  wells: number;
  rssMiB: number;
}

export interface Sizes {
  connections: number;
  nodesEach: number;
  packsEach: number;
  warmUpEach: number;
}

async function runLoadOn(
  port: number,
  order: Omit<LoadTask, 'port'>,
  before: () => Promise<void>,
): Promise<{ ms: number; messages: number }> {
  const load = startChild({ role: 'load', order: { ...order, port } });
  await load.waitFor('ready');
  const warm = load.waitFor('warm');
  load.send('go');
  await warm;
  await before();
  const done = load.waitFor('done');
  load.send('timed');
  const reply = await done;
  await load.end();
  return { ms: reply['ms'] as number, messages: reply['messages'] as number };
}

async function measureNoOp(sizes: Sizes): Promise<{ perS: number; cpuUs: number }> {
  const broker = startChild({ role: 'broker' });
  const port = (await broker.waitFor('ready'))['port'] as number;
  const subscriber = startChild({ role: 'subscriber', port });
  await subscriber.waitFor('ready');
  const began = { at: 0 };
  const { messages } = await runLoadOn(port, { ...sizes, perSecond: 0, dryNodeEvery: 0 }, async () => {
    await waitForCount(subscriber, sizes.warmUpEach * sizes.nodesEach * sizes.connections);
    subscriber.send('reset');
    began.at = performance.now();
  });
  const count = await waitForCount(subscriber, messages);
  const ms = performance.now() - began.at;
  await subscriber.end();
  await broker.end();
  return { perS: (messages / ms) * 1000, cpuUs: (count['cpuUs'] as number) / messages };
}

async function waitForCount(child: Child, messages: number): Promise<Record<string, unknown>> {
  for (;;) {
    const answer = child.waitFor('count');
    child.send('count');
    const reply = await answer;
    if ((reply['count'] as number) >= messages) return reply;
    await new Promise((done) => setTimeout(done, 5));
  }
}

async function measureServer(
  sizes: Sizes,
): Promise<{ perS: number; cpuUs: number; wells: number; rssMiB: number }> {
  const server = startChild({ role: 'server', notices: false });
  const port = (await server.waitFor('ready'))['port'] as number;
  const { ms, messages } = await runLoadOn(port, { ...sizes, perSecond: 0, dryNodeEvery: 0 }, async () => {
    const reset = server.waitFor('reset-done');
    server.send('reset');
    await reset;
  });
  const answer = server.waitFor('count');
  server.send('count');
  const reply = await answer;
  await server.end();
  return {
    perS: (messages / ms) * 1000,
    cpuUs: (reply['cpuUs'] as number) / messages,
    wells: reply['wells'] as number,
    rssMiB: reply['rssMiB'] as number,
  };
}

export async function benchEndToEnd(sizes: Sizes): Promise<EndToEnd> {
  const bare = await measureNoOp(sizes);
  const full = await measureServer(sizes);
  return {
    noOpPerS: bare.perS,
    oursPerS: full.perS,
    ratio: full.perS / bare.perS,
    cpuUs: full.cpuUs,
    noOpCpuUs: bare.cpuUs,
    wells: full.wells,
    rssMiB: full.rssMiB,
  };
}

export interface NoticeDelay {
  notices: number;
  medianMs: number;
  p99Ms: number;
}

/**
 * From the arrival of the reading that showed it to the notice handed over, at `perSecond`
 * messages.
 */
export async function benchNotice(sizes: Sizes, perSecond: number): Promise<NoticeDelay> {
  const server = startChild({ role: 'server', notices: true });
  const port = (await server.waitFor('ready'))['port'] as number;
  await runLoadOn(port, { ...sizes, perSecond, dryNodeEvery: 4 }, () => Promise.resolve());
  await new Promise((done) => setTimeout(done, 1500));
  const answer = server.waitFor('count');
  server.send('count');
  const reply = await answer;
  await server.end();
  const latencies = (reply['latencies'] as number[])
    .filter((ms) => Number.isFinite(ms))
    .sort((a, b) => a - b);
  const at = (quantile: number): number =>
    latencies[Math.min(latencies.length - 1, Math.floor(quantile * latencies.length))] ?? Number.NaN;
  return { notices: latencies.length, medianMs: at(0.5), p99Ms: at(0.99) };
}
