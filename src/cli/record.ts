/**
 * `stillwell record`: everything that nodes send and people do from now on, into a file that
 * `replay` reads.
 */
import { createWriteStream, type WriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { join } from 'node:path';
import { fileError } from '../../shared/text/en/system-reasons.ts';
import { openBrokerClient } from '../mqtt/client.ts';
import type { OnMessage } from '../mqtt/broker.ts';
import { makeCredential } from '../mqtt/credentials.ts';
import { openStore } from '../store/open-store.ts';
import type { ActRow, Store } from '../store/store.ts';
import { builtInUrl, externalClientSettings } from '../server/open-broker.ts';
import { activeActs, newRecorder } from '../server/record.ts';
import { STORE_FILE } from '../server/server.ts';
import { EXIT, type CommandBuilder, type Io } from './command.ts';
import { dataOption, settingsOption } from './options.ts';
import { locate, type Place } from './place.ts';
import { newLog, untilShutdown } from './server-log.ts';
import { texts } from './texts.ts';

/**
 * Who listens on the built-in broker: a user that hears everything and publishes nothing, made for
 * one recording and removed after it. No two recordings share one, so that none ends the other.
 */
const listenerName = (): string => `recorder-${process.pid}-${Date.now().toString(36)}`;
const ACTS_EVERY_MS = 2000;

export const recordCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().recordWhatNodesSendAndWhat)
    .argument('<file>', texts().fileToMakeAFile)
    .addOption(settingsOption())
    .addOption(dataOption())
    .addHelpText('after', texts().examplesOfRecord)
    .action(
      action(async (out, flags) => {
        const place = locate(io, flags);
        const file = out === '-' ? undefined : await openFile(out);
        await record(place, { write: (line) => (file ?? process.stdout).write(`${line}\n`), io });
        if (file) {
          file.end();
          await finished(file);
        }
        return EXIT.ok;
      }),
    );
};

function openFile(out: string): Promise<WriteStream> {
  return new Promise((resolve, reject) => {
    const file = createWriteStream(out, { flags: 'wx' });
    file.once('open', () => resolve(file));
    file.once('error', (error) => reject(fileError('write', out, error)));
  });
}

interface RecordParams {
  write: (line: string) => void;
  io: Io;
}

async function record(place: Place, { write, io }: RecordParams): Promise<void> {
  const { dataDir } = place;
  const log = newLog(io);
  const recorder = newRecorder(write, Date.now);
  const beganMs = Date.now();
  recorder.acts(activeActs(await storedActs(dataDir), beganMs));
  const ended = untilShutdown();
  const connection = await connect(place, (topic, payload, how) => recorder.message(topic, payload, how));
  const recordActs = async (beforeMs?: number): Promise<void> =>
    recorder.acts(
      (await storedActs(dataDir)).filter((row) => row.atMs >= beganMs),
      beforeMs,
    );
  const timer = setInterval(() => void recordActs(Date.now()), ACTS_EVERY_MS);
  try {
    log('info', texts().recordingEndWithCtrlC);
    await ended;
  } finally {
    clearInterval(timer);
    await connection.close();
  }
  await recordActs();
  log(
    'info',
    texts().recordedMessagesAndActs({ messages: recorder.counts.messages, acts: recorder.counts.acts }),
  );
}

/** Acts as the server has kept them. */
function storedActs(dataDir: string): Promise<ActRow[]> {
  return withStore(dataDir, (store) => store.acts({ fromMs: 0 }));
}

/** Looks into the server's store beside it. */
async function withStore<T>(dataDir: string, use: (store: Store) => Promise<T>): Promise<T> {
  const store = openStore(join(dataDir, STORE_FILE), { role: 'secondary' });
  try {
    return await use(store);
  } finally {
    await store.close();
  }
}

interface Connection {
  close: () => Promise<void>;
}

async function connect(
  { settings, secrets, dataDir, options }: Place,
  onMessage: OnMessage,
): Promise<Connection> {
  const common = { root: settings.root, onMessage, firstFailure: 'reject', temporary: true } as const;
  const { broker } = settings;
  if (broker.kind === 'external') {
    const connection = externalClientSettings(broker, secrets);
    return openBrokerClient({
      ...connection,
      ...common,
      clientId: `${connection.clientId}-${listenerName()}`,
    });
  }
  const url = await withStore(dataDir, builtInUrl);
  if (url === undefined) throw new Error(texts().noServerHasRun({ dataDir, options }));
  const user = listenerName();
  const { password, row } = await makeCredential(user, { createdMs: Date.now() });
  await withStore(dataDir, (store) =>
    store.commit([{ change: 'credential', row: { ...row, listenOnly: true } }]),
  );
  const forget = (): Promise<void> =>
    withStore(dataDir, (store) => store.commit([{ change: 'credential-removed', node: user }]));
  try {
    const client = await openBrokerClient({ ...common, url, clientId: user, version: 4, user, password });
    return {
      async close() {
        try {
          await client.close();
        } finally {
          await forget();
        }
      },
    };
  } catch (error) {
    await forget();
    throw new Error(texts().serverMustBeRunning({ why: errorMessage(error), options }), {
      cause: error,
    });
  }
}

function errorMessage(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
