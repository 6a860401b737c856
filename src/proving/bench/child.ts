/**
 * The bench's child processes: the load, a broker with a subscriber that does nothing beside it, the whole server, and a subscriber
 * that does nothing. Each says when it is ready and answers over the process channel.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { openBuiltInBroker } from '../../broker/built-in.ts';
import { openOutbox } from '../../send/outbox.ts';
import { openStore } from '../../store/open-store.ts';
import { openLive } from '../../run/live/server.ts';
import type { NoticeRow } from '../../notice/notice-row.ts';
import { runLoad, type LoadOrder } from './load.ts';

export type ChildOrder =
  | { role: 'load'; order: LoadOrder }
  | { role: 'broker' }
  | { role: 'subscriber'; port: number }
  | { role: 'server'; notices: boolean };

export type ChildWord = Record<string, unknown> & { word: string };

function say(word: ChildWord): void {
  process.send?.(word);
}

function heard(word: string): Promise<ChildWord> {
  return new Promise((resolve) => {
    const on = (message: unknown): void => {
      if ((message as ChildWord).word !== word) return;
      process.off('message', on);
      resolve(message as ChildWord);
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
    credential: () => undefined,
    onMessage: () => undefined,
  });
  say({ word: 'ready', port: opened.port });
  await heard('end');
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
  say({ word: 'ready' });
  process.on('message', (message) => {
    const { word } = message as ChildWord;
    if (word === 'reset') {
      count = 0;
      cpu = process.cpuUsage();
    } else if (word === 'count') {
      const used = process.cpuUsage(cpu);
      say({ word: 'count', count, cpuUs: used.user + used.system });
    }
  });
  await heard('end');
  await client.endAsync();
}

/** The whole line: broker, intake, engine, store, notices. */
async function server(notices: boolean): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-bench-'));
  const store = openStore(join(folder, 'bench.db'));
  const arrivedMs = new Map<string, number>();
  const latencies: number[] = [];
  const parts: { poke?: () => void } = {};
  const live = openLive({
    store,
    root: 'wells',
    observe: false,
    letInAll: true,
    now: Date.now,
    publish: (topic, payload, how) => void opened.publish(topic, payload, how).catch(() => undefined),
    tell: (change, nowMs) => (notices ? [noticeOf(change.after.id, change.event, nowMs)] : []),
    log: (_level, sentence) => process.stderr.write(`${sentence}\n`),
    onCommit: () => parts.poke?.(),
  });
  const opened = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    allowLocal: true,
    acknowledge: 'when-kept',
    credential: () => undefined,
    onMessage: (topic, payload, how) => {
      if (notices) arrivedMs.set(topic.split('/')[1]!, Date.now());
      live.take({ topic, payload, retained: how.retained, ...(how.kept && { kept: how.kept }) });
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
  parts.poke = () => outbox.poke();
  let cpu = process.cpuUsage();
  process.on('message', (message) => {
    const { word } = message as ChildWord;
    if (word === 'reset') {
      cpu = process.cpuUsage();
      say({ word: 'reset-done' });
    } else if (word === 'count') {
      const used = process.cpuUsage(cpu);
      const { counts, lines } = live.state();
      say({
        word: 'count',
        counts,
        wells: lines.size,
        latencies,
        cpuUs: used.user + used.system,
        rssMiB: process.memoryUsage.rss() / 2 ** 20,
      });
    }
  });
  say({ word: 'ready', port: opened.port });
  await heard('end');
  await outbox.close();
  await opened.close();
  await live.close();
  store.close();
  rmSync(folder, { recursive: true, force: true });
}

function noticeOf(alarmId: string, event: NoticeRow['body']['event'], nowMs: number): NoticeRow {
  return {
    id: `${alarmId}/${event.state}/${event.at}`,
    alarmId,
    to: 'bench',
    what: event.state,
    dueMs: nowMs,
    madeMs: nowMs,
    tries: 0,
    state: 'due',
    body: { subject: event.alarm, text: event.why ?? '', event, way: 'mqtt' },
  };
}

async function main(): Promise<void> {
  // Whoever asked is gone: nobody waits for an answer.
  process.on('disconnect', () => process.exit());
  const ended = heard('end');
  const { order } = (await heard('order')) as ChildWord & { order: ChildOrder };
  switch (order.role) {
    case 'load':
      await runLoad(order.order, (word) => say(word), heard('go'), heard('timed'));
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
