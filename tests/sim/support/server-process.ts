/**
 * The whole server in a process of its own, for the test that kills it: broker, store, live loop,
 * outbox and pages as `serve` opens them, by a clock that its parent moves, so that the machine's
 * speed changes nothing. Speaks over the IPC channel of its parent.
 */
import { DEFAULT_SETTINGS } from '../../../src/config/read-settings.ts';
import { openStore } from '../../../src/store/open-store.ts';
import { delayedStore } from '../../support/delayed-store.ts';
import { openServer } from '../../../src/server/server.ts';

/** What the parent says: the clock stands at `nowMs`; acts to do; or save all and end. */
export type ParentMessage =
  { is: 'clock'; nowMs: number } | { is: 'act'; act: Record<string, unknown> } | { is: 'end'; nowMs: number };

/**
 * What the server says: it takes messages at this port; all that was asked of it is done; something
 * it logged.
 */
export type ServerMessage =
  { is: 'open'; port: number } | { is: 'done' } | { is: 'trouble'; sentence: string };

const [dataDir = '', port = '0', startMs = '0', delaySeed] = process.argv.slice(2);
const clock = { nowMs: Number(startMs) };
const send = (answer: ServerMessage): void => void process.send?.(answer);

const station = await openServer({
  settings: {
    ...DEFAULT_SETTINGS,
    dataDir,
    broker: { kind: 'built-in', host: '127.0.0.1', port: Number(port) },
    web: { host: '127.0.0.1', port: 0 },
    notices: [{ name: 'farm office', mqtt: { topic: 'farm/notices' }, priorities: ['now', 'soon', 'note'] }],
  },
  secrets: { channels: {} },
  version: '0.0.0',
  now: () => clock.nowMs,
  // Nodes that a kill cut off in the middle of a word are turned away in plain words; that is no
  // trouble.
  log: (level, sentence) => (level === 'error' ? send({ is: 'trouble', sentence }) : undefined),
  allowLocal: true,
  autoTick: false,
  ...(delaySeed !== undefined && {
    openStore: (path, options) => delayedStore(openStore(path, options), Number(delaySeed)),
  }),
});

process.on('message', (word: ParentMessage) => void handleMessage(word));
// A parent that is gone wants nothing more.
process.on('disconnect', () => process.exit());
send({ is: 'open', port: station.brokerPort! });

async function handleMessage(message: ParentMessage): Promise<void> {
  switch (message.is) {
    case 'clock':
      clock.nowMs = Math.max(clock.nowMs, message.nowMs);
      await station.live.tick();
      break;
    case 'act': {
      const done = await station.live.applyAct(message.act);
      if ('problem' in done) send({ is: 'trouble', sentence: done.problem });
      send({ is: 'done' });
      break;
    }
    case 'end':
      await station.live.drained();
      // Twice a minute apart: late packs are run again at most once a minute.
      for (const laterMs of [0, 61_000]) {
        clock.nowMs = message.nowMs + laterMs;
        await station.live.tick();
      }
      await station.close();
      process.disconnect();
      break;
    default:
      message satisfies never;
  }
}
