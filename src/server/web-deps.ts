/** What the pages may see and do, answered by the live loop and the store. */
import { makeCredential } from '../mqtt/credentials.ts';
import type { Broker } from '../mqtt/broker.ts';
import type { Settings } from '../config/settings.ts';
import type { DocumentFiles } from '../store/document-files.ts';
import type { Store } from '../store/store.ts';
import type { CalendarAccess, WebDeps } from '../http/deps.ts';
import type { MetricFamily } from '../http/metrics.ts';
import { newMutex } from '../mutex.ts';
import { openLogbookService } from './logbook-service.ts';
import type { LiveServer } from './live/server.ts';
import { isBusy, type LoopDelay } from './loop-delay.ts';
import { liveWell, wellStatus } from './live/view.ts';
import { openWellExports } from './export/well-exports.ts';
import { withImported } from './export/with-imported.ts';
import { texts } from './texts.ts';

export interface WebParts {
  settings: Settings;
  store: Store;
  documents: DocumentFiles;
  live: LiveServer;
  broker: Broker;
  phones: CalendarAccess;
  loopDelay: LoopDelay;
  version: string;
  commandOptions?: string;
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
}

export function webDeps(parts: WebParts): WebDeps {
  const { store, live, now } = parts;
  // Of two at once for the same node both would be shown a password, and one of them would open
  // nothing.
  const approvals = newMutex();
  return {
    store: withImported(store),
    calendarAccess: parts.phones,
    logbook: openLogbookService({ store, documents: parts.documents, now }),
    exports: openWellExports({
      store,
      documents: parts.documents,
      now,
      commit: (plan) => live.importChanges(plan),
      writeCard: (card, by) => live.applyAct({ kind: 'card-changed', card }, by),
    }),
    live: {
      wells: () => live.read(({ pipelines }) => [...pipelines.values()].map(wellStatus)),
      well: (name) =>
        live.read(({ pipelines }) => {
          const pipeline = pipelines.get(name);
          return pipeline && liveWell(pipeline);
        }),
      subscribe: (fn) => live.subscribe(fn),
    },
    act: (written, by, refuse) => live.applyAct(written, by, refuse),
    approveNode: (node) => approvals.run(() => approveNode(parts, node)),
    forget: (node) => live.forget(node),
    metrics: () => metricsOf(parts),
    healthProblems: () => [...live.healthProblems(), ...busyProblem(parts)],
    loopDelay: () => parts.loopDelay.recent(),
    onError: (error) =>
      parts.log('error', error instanceof Error ? (error.stack ?? error.message) : String(error)),
    version: parts.version,
    ...(parts.commandOptions !== undefined && { commandOptions: parts.commandOptions }),
    startedMs: now(),
    now,
  };
}

/**
 * On our own broker a node is let in by its credential, shown once; on another one by our saying
 * so.
 */
async function approveNode(parts: WebParts, node: string): ReturnType<WebDeps['approveNode']> {
  const why = await parts.live.approveNode(node);
  if (why !== undefined) return { problem: why };
  if (parts.settings.broker.kind !== 'built-in') return { done: true };
  if ((await parts.store.credentials()).some((row) => row.node === node)) return { done: true };
  const { password, row } = await makeCredential(node, { createdMs: parts.now() });
  await parts.store.commit([{ change: 'credential', row }]);
  return { done: true, credential: password };
}

function busyProblem({ loopDelay }: WebParts): string[] {
  const recent = loopDelay.recent();
  return isBusy(recent) ? [texts().busy({ minutes: recent.minutes, maxMs: recent.maxMs })] : [];
}

async function metricsOf({ live, store, broker, now, loopDelay }: WebParts): Promise<MetricFamily[]> {
  const { counts, pipelines, nodes } = live.state();
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
  const { counts: refused } = await store.refused(0);
  const { boundsS, cumulative, sumS } = loopDelay.histogram();
  return [
    counter('stillwell_messages', texts().messagesThatCame, counts.messages),
    counter('stillwell_packs', texts().packsKept, counts.packs),
    counter('stillwell_duplicate_packs', texts().packsThatCameAgain, counts.duplicates),
    counter('stillwell_readings', texts().readingsKept, counts.readings),
    counter('stillwell_too_late_packs', texts().packsThatCameAfter, counts.tooLate),
    counter('stillwell_reruns', texts().timesAWellWasRun, counts.reruns),
    counter('stillwell_commits', texts().commits, counts.commits),
    {
      name: 'stillwell_commit_seconds',
      type: 'counter',
      unit: 'seconds',
      help: texts().timeSpentInCommits,
      samples: [{ value: counts.commitMs / 1000 }],
    },
    {
      name: 'stillwell_refused_messages',
      type: 'counter',
      help: texts().messagesRefusedByReasonSince,
      samples: refused.map(({ reason, count }) => ({ labels: { reason }, value: count })),
    },
    {
      name: 'stillwell_ignored_names',
      type: 'counter',
      help: texts().namesThatNodesSpoke,
      samples: [...nodes].flatMap(([node, { ignored }]) =>
        ignored === undefined ? [] : [{ labels: { node }, value: ignored.names }],
      ),
    },
    {
      name: 'stillwell_loop_delay_seconds',
      type: 'histogram',
      unit: 'seconds',
      help: texts().loopDelay,
      bounds: boundsS,
      cumulative,
      sum: sumS,
    },
    gauge('stillwell_wells', texts().wellsWatched, pipelines.size),
    gauge('stillwell_nodes', texts().nodesKnown, nodes.size),
    gauge('stillwell_connected_nodes', texts().nodesConnectedToTheBuilt, broker.connectedNodes().length),
    gauge('stillwell_clock_seconds_since_epoch', texts().ourClock, now() / 1000),
  ];
}
