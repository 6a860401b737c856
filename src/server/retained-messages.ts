/**
 * What the built-in broker retains outlives the process: each node's last `hello` and `presence`,
 * so that a recording that begins after a restart still opens with them. They lie in the store as
 * single values, a key for each topic. `kept` is not among them: the live loop publishes it for
 * every node at its start. Losing the newest instant is no harm, a node says both again at each
 * connect; so they are committed together a moment later, and trouble of the disk never reaches the
 * broker.
 */
import type { Change, Store } from '../store/store.ts';
import { texts } from './texts.ts';

type Qos = 0 | 1 | 2;

interface RetainedMessage {
  topic: string;
  payload: Uint8Array;
  qos: Qos;
}

export interface RetainedMessages {
  load: () => Promise<RetainedMessage[]>;
  /** `null` forgets the topic. */
  save: (topic: string, payload: Uint8Array | null, qos: Qos) => void;
  /** Commits what waits. */
  flush: () => Promise<void>;
}

/**
 * A thousand nodes that come back together after a power cut say 2,000 of these within seconds:
 * some commits, not 2,000.
 */
const COMMIT_DELAY_MS = 200;
const RETAINED_TOPICS = ['hello', 'presence'] as const;

const keyOf = (topic: string): string => `retained/${topic}`;

/** The shelf of one broker. `onProblem`: one sentence where the disk did not take it. */
export function retainedMessages(
  store: Pick<Store, 'commit' | 'getValue' | 'nodes'>,
  { root, onProblem }: { root: string; onProblem: (sentence: string) => void },
): RetainedMessages {
  const pending = new Map<string, string | null>();
  let timer: NodeJS.Timeout | undefined;
  async function flush(): Promise<void> {
    clearTimeout(timer);
    timer = undefined;
    if (pending.size === 0) return;
    const changes = [...pending].map(([key, value]): Change => ({ change: 'setting', key, value }));
    pending.clear();
    try {
      await store.commit(changes);
    } catch (error) {
      onProblem(texts().cannotKeepWhatNodesSaid(error instanceof Error ? error.message : String(error)));
    }
  }
  return {
    async load() {
      const loaded: RetainedMessage[] = [];
      for (const { node } of await store.nodes()) {
        for (const last of RETAINED_TOPICS) {
          const topic = `${root}/${node}/${last}`;
          loaded.push(...parse(topic, await store.getValue(keyOf(topic))));
        }
      }
      return loaded;
    },
    save(topic, payload, qos) {
      if (!RETAINED_TOPICS.some((last) => topic.endsWith(`/${last}`))) return;
      pending.set(keyOf(topic), payload && `${qos} ${Buffer.from(payload).toString('base64')}`);
      timer ??= setTimeout(() => void flush(), COMMIT_DELAY_MS);
    },
    flush,
  };
}

/** `1 eyJjb250…`: QoS and payload. */
function parse(topic: string, stored: string | undefined): RetainedMessage[] {
  const match = stored === undefined ? null : /^([012]) (.+)$/.exec(stored);
  if (!match) return [];
  return [{ topic, qos: Number(match[1]) as Qos, payload: Buffer.from(match[2]!, 'base64') }];
}
