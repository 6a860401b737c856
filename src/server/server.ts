/**
 * Everything of a running server put together: store, live loop, broker, outbox and pages, opened
 * in the order in which they need each other and closed the other way round. `serve` runs it by the
 * machine's clock, the demo by its own.
 */
import { join } from 'node:path';
import { loadCards } from '../config/load-cards.ts';
import type { Secrets } from '../config/secrets.ts';
import type { Settings } from '../config/settings.ts';
import type { Broker } from '../mqtt/broker.ts';
import { openOutbox, type Outbox } from '../channels/outbox.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import { noticeText } from '../core/notify/notice-text.ts';
import { openSenders, type Senders } from '../channels/senders.ts';
import { openStore } from '../store/open-store.ts';
import { openDocuments } from '../store/document-files.ts';
import type { Store } from '../store/store.ts';
import { openDataFolder } from './data-folder.ts';
import { openLiveServer, type LiveServer } from './live/server.ts';
import { openBroker } from './open-broker.ts';
import { openPages, type OpenPages } from './open-pages.ts';
import { newNotifier } from './notifier.ts';
import { texts } from './texts.ts';

export interface ServerOptions {
  settings: Settings;
  secrets: Secrets;
  version: string;
  /** What a command needs to find the data of this server, such as ` --data /srv/wells`. */
  commandOptions?: string;
  /** Our clock, read by the shell alone. */
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
  /** Folder of the built pages. */
  siteFolder?: string;
  /** Let clients of this computer in without a credential. */
  allowLocal: boolean;
  /** The demo's past drives the time itself. */
  autoTick?: boolean;
  batchDelayMs?: number;
  /** Another store than the database of the data folder. */
  openStore?: typeof openStore;
}

export interface RunningServer {
  live: LiveServer;
  store: Store;
  /** Where the built-in broker listens; undefined for an outside one. */
  brokerPort: number | undefined;
  web: OpenPages;
  close: () => Promise<void>;
}

export const STORE_FILE = 'stillwell.db';
export const DOCUMENTS_FOLDER = 'papers';

/** Opens it all. Rejects with one clear line, and leaves nothing open then. */
export async function openServer(options: ServerOptions): Promise<RunningServer> {
  const { settings } = options;
  openDataFolder({
    dataDir: settings.dataDir,
    storeFile: STORE_FILE,
    papersFolder: DOCUMENTS_FOLDER,
    log: options.log,
  });
  const closers: (() => Promise<void> | void)[] = [];
  try {
    const open = options.openStore ?? openStore;
    const store = open(join(settings.dataDir, STORE_FILE), {
      retention: settings.retention,
    });
    closers.push(() => store.close());
    const parts: { broker?: Broker; outbox?: Outbox } = {};
    const live = await openLiveServer({
      store,
      root: settings.root,
      observe: settings.observe,
      approveAll: settings.broker.kind === 'built-in',
      now: options.now,
      publish: (topic, payload, how) => publishQuietly(parts.broker, topic, payload, how),
      onLost: () => parts.broker?.dropConnections(),
      notify: newNotifier(settings),
      log: options.log,
      ...(options.commandOptions !== undefined && { commandOptions: options.commandOptions }),
      onCommit: () => parts.outbox?.wake(),
      ...(options.autoTick !== undefined && { autoTick: options.autoTick }),
      ...(options.batchDelayMs !== undefined && { batchDelayMs: options.batchDelayMs }),
    });
    closers.push(() => live.close());
    await importCardFiles(settings, { live, store, log: options.log });
    const broker = await openBroker(options, store, live);
    parts.broker = broker.broker;
    closers.push(() => broker.broker.close());
    const senders = await sendersOf(options, broker.broker);
    const outbox = openNoticeOutbox(options, store, senders);
    parts.outbox = outbox;
    closers.push(async () => {
      await outbox.close();
      senders.close();
    });
    const documents = openDocuments(join(settings.dataDir, DOCUMENTS_FOLDER));
    const web = await openPages(options, { store, live, documents, broker: broker.broker });
    closers.push(() => web.close());
    return { live, store, brokerPort: broker.port, web, close: () => closeAll(closers) };
  } catch (error) {
    await closeAll(closers);
    throw error;
  }
}

async function closeAll(closers: (() => Promise<void> | void)[]): Promise<void> {
  for (const step of closers.splice(0).reverse()) await step();
}

/** `kept` that could not be sent goes out again at the next hello; its loss is no fault. */
function publishQuietly(
  broker: Broker | undefined,
  topic: string,
  payload: string,
  how: { qos: 0 | 1; retain: boolean },
): void {
  broker?.publish(topic, payload, how).catch(() => undefined);
}

/**
 * Cards from files become acts when the file is new or was changed since it was last taken. A card
 * that was changed on the page since then stays: at a start nobody has said anything new by a file
 * that is as it was.
 */
async function importCardFiles(
  settings: Settings,
  { live, store, log }: { live: LiveServer; store: Store; log: ServerOptions['log'] },
): Promise<void> {
  for (const { card, json, path } of loadCards(settings)) {
    const key = `card-file/${card.well}`;
    const text = JSON.stringify(json);
    if ((await store.getValue(key)) === text) continue;
    const known = await live.read(({ cards }) => cards.get(card.well));
    if (!known || JSON.stringify(known) !== JSON.stringify(card)) {
      const done = await live.applyAct({ kind: 'card-changed', card: json }, path);
      if ('problem' in done) {
        log('warn', texts().cannotUseTheCardFile({ path, problem: done.problem }));
        continue;
      }
    }
    await store.commit([{ change: 'setting', key, value: text }]);
  }
}

export function sendersOf(
  options: Pick<ServerOptions, 'settings' | 'secrets'>,
  broker: Pick<Broker, 'publish'> | undefined,
): Promise<Senders> {
  const { settings, secrets } = options;
  return openSenders({
    recipients: settings.notices,
    settings,
    secrets: secrets.channels,
    ...(broker && { publish: (topic, payload) => broker.publish(topic, payload, { qos: 1, retain: false }) }),
  });
}

function openNoticeOutbox(options: ServerOptions, store: Store, senders: Senders): Outbox {
  return openOutbox({
    store: {
      due: (limit) => store.notices({ state: 'due', limit }),
      mark: (row) => store.commit([{ change: 'notice', row }]),
    },
    senderFor: (to, way) => senders.senderFor(to, way),
    clock: {
      nowMs: options.now,
      random: Math.random,
      after: (ms, wake) => {
        const timer = setTimeout(wake, Math.min(ms, 2 ** 31 - 1));
        timer.unref();
        return () => clearTimeout(timer);
      },
    },
    onSettled: (row) =>
      row.state === 'given-up'
        ? options.log(
            'warn',
            texts().gaveUpNotifying({
              whoAndHow: whoAndHow(row),
              lastError: row.lastError ?? texts().noReasonKnown,
            }),
          )
        : options.log(
            'info',
            texts().notified({ whoAndHow: whoAndHow(row), subject: noticeText(row).subject }),
          ),
    onProblem: (sentence) => options.log('warn', sentence),
  });
}

/** "Rose (webhook)": a recipient with several channels is notified by each. */
function whoAndHow({ to, body }: NoticeRow): string {
  const [channel] = (body.channel ?? '').split(':');
  return channel === '' || channel === undefined ? to : `${to} (${channel})`;
}
