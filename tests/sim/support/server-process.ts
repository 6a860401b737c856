/**
 * The whole server in a process of its own, for the test that kills it: broker, store, live loop, outbox and pages as `serve` opens them,
 * by a clock that its parent moves, so that the machine's speed changes nothing. Speaks over the IPC channel of its parent.
 */
import { DEFAULT_SETTINGS } from '../../../src/config/read-settings.ts';
import { openStation } from '../../../src/run/station.ts';

/** What the parent says: the clock stands at `nowMs`; acts to do; or save all and end. */
export type Word =
  { is: 'clock'; nowMs: number } | { is: 'act'; act: Record<string, unknown> } | { is: 'end'; nowMs: number };

/** What the server says: it takes messages at this port; all that was asked of it is done; something it logged. */
export type Answer = { is: 'open'; port: number } | { is: 'trouble'; sentence: string };

const [dataDir = '', port = '0', startMs = '0'] = process.argv.slice(2);
const clock = { nowMs: Number(startMs) };
const say = (answer: Answer): void => void process.send?.(answer);

const station = await openStation({
  settings: {
    ...DEFAULT_SETTINGS,
    dataDir,
    broker: { kind: 'built-in', host: '127.0.0.1', port: Number(port) },
    web: { host: '127.0.0.1', port: 0 },
    notices: [{ name: 'farm office', mqtt: { topic: 'farm/notices' }, priorities: ['now', 'soon', 'note'] }],
  },
  secrets: { webhooks: {} },
  version: '0.0.0',
  now: () => clock.nowMs,
  // Nodes that a kill cut off in the middle of a word are turned away in plain words; that is no trouble.
  log: (level, sentence) => (level === 'error' ? say({ is: 'trouble', sentence }) : undefined),
  allowLocal: true,
  beatsByItself: false,
});

process.on('message', (word: Word) => void hear(word));
// A parent that is gone wants nothing more.
process.on('disconnect', () => process.exit());
say({ is: 'open', port: station.brokerPort! });

async function hear(word: Word): Promise<void> {
  switch (word.is) {
    case 'clock':
      clock.nowMs = Math.max(clock.nowMs, word.nowMs);
      station.live.beat();
      break;
    case 'act': {
      const done = station.live.act(word.act);
      if ('no' in done) say({ is: 'trouble', sentence: done.no });
      break;
    }
    case 'end':
      await station.live.settled();
      // Twice a minute apart: late packs are run again at most once a minute.
      for (const laterMs of [0, 61_000]) {
        clock.nowMs = word.nowMs + laterMs;
        station.live.beat();
      }
      await station.close();
      process.disconnect();
      break;
    default:
      word satisfies never;
  }
}
