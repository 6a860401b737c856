/**
 * Messages a second from 200 connections to committed and evaluated, as a share of what a subscriber that does nothing takes from the
 * same broker in the same run; and how long a notice takes at half that load.
 */
import type { LoadOrder } from './load.ts';
import { startChild, type Child } from './processes.ts';

export interface EndToEnd {
  noOpPerS: number;
  oursPerS: number;
  share: number;
  cpuUs: number;
  noOpCpuUs: number;
  wells: number;
  rssMiB: number;
}

export interface Sizes {
  connections: number;
  nodesEach: number;
  packsEach: number;
  warmEach: number;
}

async function runLoadOn(
  port: number,
  order: Omit<LoadOrder, 'port'>,
  before: () => Promise<void>,
): Promise<{ ms: number; messages: number }> {
  const load = startChild({ role: 'load', order: { ...order, port } });
  await load.hear('ready');
  const warm = load.hear('warm');
  load.say('go');
  await warm;
  await before();
  const done = load.hear('done');
  load.say('timed');
  const said = await done;
  await load.end();
  return { ms: said['ms'] as number, messages: said['messages'] as number };
}

async function noOp(sizes: Sizes): Promise<{ perS: number; cpuUs: number }> {
  const broker = startChild({ role: 'broker' });
  const port = (await broker.hear('ready'))['port'] as number;
  const subscriber = startChild({ role: 'subscriber', port });
  await subscriber.hear('ready');
  const began = { at: 0 };
  const { messages } = await runLoadOn(port, { ...sizes, perSecond: 0, dryEvery: 0 }, async () => {
    await untilCounted(subscriber, sizes.warmEach * sizes.nodesEach * sizes.connections);
    subscriber.say('reset');
    began.at = performance.now();
  });
  const count = await untilCounted(subscriber, messages);
  const ms = performance.now() - began.at;
  await subscriber.end();
  await broker.end();
  return { perS: (messages / ms) * 1000, cpuUs: (count['cpuUs'] as number) / messages };
}

async function untilCounted(child: Child, messages: number): Promise<Record<string, unknown>> {
  for (;;) {
    const answer = child.hear('count');
    child.say('count');
    const said = await answer;
    if ((said['count'] as number) >= messages) return said;
    await new Promise((done) => setTimeout(done, 5));
  }
}

async function ours(sizes: Sizes): Promise<{ perS: number; cpuUs: number; wells: number; rssMiB: number }> {
  const server = startChild({ role: 'server', notices: false });
  const port = (await server.hear('ready'))['port'] as number;
  const { ms, messages } = await runLoadOn(port, { ...sizes, perSecond: 0, dryEvery: 0 }, async () => {
    const reset = server.hear('reset-done');
    server.say('reset');
    await reset;
  });
  const answer = server.hear('count');
  server.say('count');
  const said = await answer;
  await server.end();
  return {
    perS: (messages / ms) * 1000,
    cpuUs: (said['cpuUs'] as number) / messages,
    wells: said['wells'] as number,
    rssMiB: said['rssMiB'] as number,
  };
}

export async function benchEndToEnd(sizes: Sizes): Promise<EndToEnd> {
  const bare = await noOp(sizes);
  const full = await ours(sizes);
  return {
    noOpPerS: bare.perS,
    oursPerS: full.perS,
    share: full.perS / bare.perS,
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

/** From the arrival of the reading that showed it to the notice handed over, at `perSecond` messages. */
export async function benchNotice(sizes: Sizes, perSecond: number): Promise<NoticeDelay> {
  const server = startChild({ role: 'server', notices: true });
  const port = (await server.hear('ready'))['port'] as number;
  await runLoadOn(port, { ...sizes, perSecond, dryEvery: 4 }, () => Promise.resolve());
  await new Promise((done) => setTimeout(done, 1500));
  const answer = server.hear('count');
  server.say('count');
  const said = await answer;
  await server.end();
  const latencies = (said['latencies'] as number[]).filter((ms) => Number.isFinite(ms)).sort((a, b) => a - b);
  const at = (share: number): number =>
    latencies[Math.min(latencies.length - 1, Math.floor(share * latencies.length))] ?? Number.NaN;
  return { notices: latencies.length, medianMs: at(0.5), p99Ms: at(0.99) };
}
