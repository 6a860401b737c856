/**
 * The bench's child processes: the load, a broker with a subscriber that does nothing beside it,
 * the whole server, and a subscriber that does nothing. Each says when it is ready and answers over
 * the process channel.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { openBuiltInBroker } from '../../mqtt/built-in.ts';
import { openOutbox } from '../../channels/outbox.ts';
import { openStore } from '../../store/open-store.ts';
import { openLiveServer, type LiveServer } from '../../server/live/server.ts';
import type { NoticeRow } from '../../core/notify/notice-row.ts';
import { runLoad, type LoadTask } from './load.ts';

export type ChildTask =
  | { role: 'load'; order: LoadTask }
  | { role: 'broker' }
  | { role: 'subscriber'; port: number }
  | { role: 'server'; notices: boolean };

export type ChildMessage = Record<string, unknown> & { type: string };

function send(message: ChildMessage): void {
  process.send?.(message);
}

function waitForMessage(type: string): Promise<ChildMessage> {
  return new Promise((resolve) => {
    const on = (message: unknown): void => {
      if ((message as ChildMessage).type !== type) return;
      process.off('message', on);
      resolve(message as ChildMessage);
    };
    process.on('message', on);
  });
}

/** The server's own broker, forwarding to whoever subscribes. */
async function broker(): Promise<void> {
  const opened = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    allowLocal: true,
    credential: () => Promise.resolve(undefined),
    onMessage: () => undefined,
  });
  send({ type: 'ready', port: opened.port });
  await waitForMessage('end');
  await opened.close();
}

/** A subscriber that does nothing with what comes but count it. */
async function subscriber(port: number): Promise<void> {
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`, { protocolVersion: 4, clientId: 'no-op' });
  let count = 0;
  let cpu = process.cpuUsage();
  client.on('message', () => {
    count++;
  });
  await client.subscribeAsync('wells/+/readings', { qos: 1 });
  send({ type: 'ready' });
  process.on('message', (message) => {
    const { type } = message as ChildMessage;
    if (type === 'reset') {
      count = 0;
      cpu = process.cpuUsage();
    } else if (type === 'count') {
      const used = process.cpuUsage(cpu);
      send({ type: 'count', count, cpuUs: used.user + used.system });
    }
  });
  await waitForMessage('end');
  await client.endAsync();
}

/** The whole line: broker, intake, engine, store, notices. */
async function server(notices: boolean): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-bench-'));
  const store = openStore(join(folder, 'bench.db'));
  const arrivedMs = new Map<string, number>();
  const latencies: number[] = [];
  const parts: { poke?: () => void } = {};
  const live = await openLiveServer({
    store,
    root: 'wells',
    observe: false,
    approveAll: true,
    now: Date.now,
    publish: (topic, payload, how) => void opened.publish(topic, payload, how).catch(() => undefined),
    notify: (change, { nowMs }) => (notices ? [noticeOf(change.after.id, change.event, nowMs)] : []),
    log: (_level, sentence) => process.stderr.write(`${sentence}\n`),
    onCommit: () => parts.poke?.(),
  });
  const opened = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    allowLocal: true,
    acknowledge: 'after-commit',
    credential: () => Promise.resolve(undefined),
    onMessage: (topic, payload, how) => {
      if (notices) arrivedMs.set(topic.split('/')[1]!, Date.now());
      live.receive({
        topic,
        payload,
        retained: how.retained,
        ...(how.acknowledge && { acknowledge: how.acknowledge }),
      });
    },
  });
  const outbox = openOutbox({
    store: {
      due: (limit) => store.notices({ state: 'due', limit }),
      mark: (row) => store.commit([{ change: 'notice', row }]),
    },
    senderFor: () => async (row) => {
      latencies.push(Date.now() - (arrivedMs.get(row.body.event.well ?? '') ?? Number.NaN));
      return Promise.resolve({ sent: true });
    },
  });
  parts.poke = () => outbox.wake();
  answerCounts(live, latencies);
  send({ type: 'ready', port: opened.port });
  await waitForMessage('end');
  await outbox.close();
  await opened.close();
  await live.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
}

/** Answers `reset` and `count` with what the server has done and used since the last `reset`. */
function answerCounts(live: LiveServer, latencies: readonly number[]): void {
  let cpu = process.cpuUsage();
  process.on('message', (message) => {
    const { type } = message as ChildMessage;
    if (type === 'reset') {
      cpu = process.cpuUsage();
      send({ type: 'reset-done' });
    } else if (type === 'count') {
      const used = process.cpuUsage(cpu);
      const { counts, pipelines } = live.state();
      send({
        type: 'count',
        counts,
        wells: pipelines.size,
        latencies,
        cpuUs: used.user + used.system,
        rssMiB: process.memoryUsage.rss() / 2 ** 20,
      });
    }
  });
}

function noticeOf(alarmId: string, event: NoticeRow['body']['event'], nowMs: number): NoticeRow {
  return {
    id: `${alarmId}/${event.state}/${event.at}`,
    alarmId,
    to: 'bench',
    what: event.state,
    dueMs: nowMs,
    createdMs: nowMs,
    tries: 0,
    state: 'due',
    body: { subject: event.alarm, text: event.why ?? '', event, channel: 'mqtt' },
  };
}

async function main(): Promise<void> {
  // Whoever asked is gone: nobody waits for an answer.
  process.on('disconnect', () => process.exit());
  const ended = waitForMessage('end');
  const { order } = (await waitForMessage('order')) as ChildMessage & { order: ChildTask };
  switch (order.role) {
    case 'load':
      await runLoad(order.order, (word) => send(word), waitForMessage('go'), waitForMessage('timed'));
      await ended;
      break;
    case 'broker':
      await broker();
      break;
    case 'subscriber':
      await subscriber(order.port);
      break;
    case 'server':
      await server(order.notices);
      break;
    default:
      order satisfies never;
  }
  process.disconnect();
}

await main();
