/** `stillwell record`: everything that nodes send and people do from now on, into a file that `replay` reads. */
import { createWriteStream, type WriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { join } from 'node:path';
import { openBrokerClient } from '../mqtt/client.ts';
import type { OnMessage } from '../mqtt/broker.ts';
import { makeCredential } from '../mqtt/credentials.ts';
import type { LoadedSettings } from '../config/load-settings.ts';
import { openStore } from '../store/open-store.ts';
import type { ActRow, Store } from '../store/store.ts';
import { builtInUrl, externalClientSettings } from '../server/open-broker.ts';
import { activeActs, newRecorder } from '../server/record.ts';
import { STORE_FILE } from '../server/server.ts';
import { EXIT, UsageError, type Command, type Io } from './command.ts';
import { newLog, untilShutdown } from './server-log.ts';
import { readOptions } from './options.ts';
import { readSettingsOrUsageError } from './serve.ts';

/**
 * Who listens on the built-in broker: a user that hears everything and publishes nothing, made for one recording and removed after it. No
 * two recordings share one, so that none ends the other.
 */
const listenerName = (): string => `recorder-${process.pid}-${Date.now().toString(36)}`;
const ACTS_EVERY_MS = 2000;

export const recordCommand: Command = {
  name: 'record',
  usage: 'record OUT [--settings FILE] [--data DIR]',
  about: 'Write down what nodes send and people do, until you end it with Ctrl-C.',
  more: `OUT is the file to make; one that is there already is left alone. - writes to standard output. The server must be running;
this listens beside it and changes nothing. Run the recording again later: stillwell replay OUT

  --settings FILE  the settings file of the server (.stillwell/settings.json unless given)
  --data DIR       the folder where the server keeps everything`,
  async run(args, io) {
    const { flags, names } = readOptions(args, { settings: { type: 'string' }, data: { type: 'string' } });
    const [out, ...rest] = names;
    if (out === undefined || rest.length > 0)
      throw new UsageError('One file is expected: stillwell record OUT');
    const loaded = readSettingsOrUsageError(io.env, flags.settings);
    const dataDir = flags.data ?? loaded.settings.dataDir;
    const file = out === '-' ? undefined : await openFile(out);
    await record(loaded, { dataDir, write: (line) => (file ?? process.stdout).write(`${line}\n`), io });
    if (file) {
      file.end();
      await finished(file);
    }
    return EXIT.ok;
  },
};

function openFile(out: string): Promise<WriteStream> {
  return new Promise((resolve, reject) => {
    const file = createWriteStream(out, { flags: 'wx' });
    file.once('open', () => resolve(file));
    file.once('error', (error: NodeJS.ErrnoException) =>
      reject(
        new Error(
          error.code === 'EEXIST'
            ? `Cannot write ${out}: it is there already; choose another name`
            : `Cannot write ${out}: ${error.message}`,
        ),
      ),
    );
  });
}

interface RecordParams {
  dataDir: string;
  write: (line: string) => void;
  io: Io;
}

async function record(loaded: LoadedSettings, { dataDir, write, io }: RecordParams): Promise<void> {
  const log = newLog(io);
  const recorder = newRecorder(write, Date.now);
  const beganMs = Date.now();
  recorder.acts(activeActs(storedActs(dataDir), beganMs));
  const ended = untilShutdown();
  const connection = await connect(loaded, dataDir, (topic, payload, how) =>
    recorder.message(topic, payload, how),
  );
  const recordActs = (): void => recorder.acts(storedActs(dataDir).filter((row) => row.atMs >= beganMs));
  const timer = setInterval(recordActs, ACTS_EVERY_MS);
  try {
    log('info', 'Recording. End with Ctrl-C.');
    await ended;
  } finally {
    clearInterval(timer);
    await connection.close();
  }
  recordActs();
  log('info', `Recorded ${recorder.counts.messages} messages and ${recorder.counts.acts} acts.`);
}

/** Acts as the server has kept them. */
function storedActs(dataDir: string): ActRow[] {
  return withStore(dataDir, (store) => store.acts({ fromMs: 0 }));
}

/** Looks into the server's store beside it. */
function withStore<T>(dataDir: string, read: (store: Store) => T): T {
  const store = openStore(join(dataDir, STORE_FILE), { role: 'secondary' });
  try {
    return read(store);
  } finally {
    store.close();
  }
}

interface Connection {
  close: () => Promise<void>;
}

async function connect(
  { settings, secrets }: LoadedSettings,
  dataDir: string,
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
  const url = withStore(dataDir, builtInUrl);
  if (url === undefined)
    throw new Error(`Cannot record: no server has run on ${dataDir} yet; start it first: stillwell serve`);
  const user = listenerName();
  const { password, row } = await makeCredential(user, { createdMs: Date.now() });
  withStore(dataDir, (store) => store.commit([{ change: 'credential', row: { ...row, listenOnly: true } }]));
  const forget = (): void =>
    withStore(dataDir, (store) => store.commit([{ change: 'credential-removed', node: user }]));
  try {
    const client = await openBrokerClient({ ...common, url, clientId: user, version: 4, user, password });
    return { close: () => client.close().finally(forget) };
  } catch (error) {
    forget();
    throw new Error(`${errorMessage(error)} The server must be running: stillwell serve`, { cause: error });
  }
}

function errorMessage(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
