/** What the pages may see and do, answered by the live loop and the store. */
import { makeCredential } from '../broker/credentials.ts';
import type { Broker } from '../broker/broker.ts';
import type { Settings } from '../config/settings.ts';
import type { PaperFiles } from '../store/paper-files.ts';
import type { Store } from '../store/store.ts';
import type { Phones, WebDeps } from '../web/deps.ts';
import type { MetricFamily } from '../web/metrics.ts';
import { openDesk } from './desk.ts';
import type { LiveServer } from './live/server.ts';
import { liveWell, wellNow } from './live/view.ts';
import { openPackets } from './packet/packets.ts';
import { withHanded } from './packet/with-handed.ts';

export interface WebParts {
  settings: Settings;
  store: Store;
  papers: PaperFiles;
  live: LiveServer;
  broker: Broker;
  phones: Phones;
  version: string;
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
}

export function webDeps(parts: WebParts): WebDeps {
  const { store, live, now } = parts;
  return {
    store: withHanded(store),
    phones: parts.phones,
    desk: openDesk({ store, papers: parts.papers, now }),
    packets: openPackets({
      store,
      papers: parts.papers,
      now,
      commit: (changes) => live.handIn(changes),
      writeCard: (card, by) => void live.act({ kind: 'card-changed', card }, by),
    }),
    live: {
      wells: () => [...live.state().lines.values()].map(wellNow),
      well: (name) => {
        const line = live.state().lines.get(name);
        return line && liveWell(line);
      },
      subscribe: (fn) => live.subscribe(fn),
    },
    act: (written, by) => Promise.resolve(live.act(written, by)),
    letIn: (node) => letIn(parts, node),
    forget: (node) => live.forget(node),
    metrics: () => metricsOf(parts),
    ailments: () => live.ailments(),
    fault: (error) =>
      parts.log('error', error instanceof Error ? (error.stack ?? error.message) : String(error)),
    version: parts.version,
    startedMs: now(),
    now,
  };
}

/** On our own broker a node is let in by its credential, shown once; on another one by our saying so. */
async function letIn(parts: WebParts, node: string): ReturnType<WebDeps['letIn']> {
  const why = parts.live.letIn(node);
  if (why !== undefined) return { no: why };
  if (parts.settings.broker.kind !== 'built-in') return { done: true };
  if (parts.store.credentials().some((row) => row.node === node)) return { done: true };
  const { password, row } = await makeCredential(node, { madeMs: parts.now() });
  parts.store.commit([{ change: 'credential', row }]);
  return { done: true, credential: password };
}

function metricsOf({ live, store, broker, now }: WebParts): MetricFamily[] {
  const { counts, lines, nodes } = live.state();
  const counter = (name: string, help: string, value: number): MetricFamily => ({
    name,
    type: 'counter',
    help,
    samples: [{ value }],
  });
  const gauge = (name: string, help: string, value: number): MetricFamily => ({
    name,
    type: 'gauge',
    help,
    samples: [{ value }],
  });
  const refused = store.refused(0).counts;
  return [
    counter('stillwell_messages', 'Messages that came.', counts.messages),
    counter('stillwell_packs', 'Packs kept.', counts.packs),
    counter('stillwell_duplicate_packs', 'Packs that came again.', counts.duplicates),
    counter('stillwell_readings', 'Readings kept.', counts.readings),
    counter('stillwell_too_late_packs', 'Packs that came after the settling time.', counts.tooLate),
    counter('stillwell_reruns', 'Times a well was run again for late packs or after a start.', counts.reruns),
    counter('stillwell_commits', 'Commits.', counts.commits),
    {
      name: 'stillwell_commit_seconds',
      type: 'counter',
      unit: 'seconds',
      help: 'Time spent in commits.',
      samples: [{ value: counts.commitMs / 1000 }],
    },
    {
      name: 'stillwell_refused_messages',
      type: 'counter',
      help: 'Messages refused, by reason, since the store was made.',
      samples: refused.map(({ reason, count }) => ({ labels: { reason }, value: count })),
    },
    {
      name: 'stillwell_ignored_names',
      type: 'counter',
      help: 'Names that nodes spoke for without a right to, by node.',
      samples: [...nodes].flatMap(([node, { ignored }]) =>
        ignored === undefined ? [] : [{ labels: { node }, value: ignored.names }],
      ),
    },
    gauge('stillwell_wells', 'Wells watched.', lines.size),
    gauge('stillwell_nodes', 'Nodes known.', nodes.size),
    gauge(
      'stillwell_connected_nodes',
      'Nodes connected to the built-in broker.',
      broker.connectedNodes().length,
    ),
    gauge('stillwell_clock_seconds_since_epoch', 'Our clock.', now() / 1000),
  ];
}
