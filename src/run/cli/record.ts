/** `stillwell record`: everything that nodes send and people do from now on, into a file that `replay` reads. */
import { createWriteStream, type WriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { join } from 'node:path';
import { openBrokerClient } from '../../broker/client.ts';
import type { Broker, OnMessage } from '../../broker/broker.ts';
import { makeCredential } from '../../broker/credentials.ts';
import type { LoadedSettings } from '../../config/load-settings.ts';
import { openStore } from '../../store/open-store.ts';
import type { ActRow } from '../../store/store.ts';
import { cardsNow, newRecorder } from '../record.ts';
import { STORE_FILE } from '../station.ts';
import { EXIT, Misuse, type Command, type Io } from './command.ts';
import { newLog, untilEnded } from './log.ts';
import { readOptions } from './options.ts';
import { readSettingsOrMisuse } from './serve.ts';

/** User of the built-in broker that listens to everything and publishes nothing; its password is new each time. */
const LISTENER = 'recorder';
const ACTS_EVERY_MS = 2000;

export const recordCommand: Command = {
  name: 'record',
  usage: 'record OUT [--settings FILE] [--data DIR]',
  about: 'write what nodes send and people do into a recording, until Ctrl-C',
  more: `OUT is made new, or - for standard output. The server goes on meanwhile; this listens beside it.
  --settings FILE   settings (.stillwell/settings.json where not given)
  --data DIR        where the server keeps everything`,
  async run(args, io) {
    const { flags, names } = readOptions(args, { settings: { type: 'string' }, data: { type: 'string' } });
    const [out, ...rest] = names;
    if (out === undefined || rest.length > 0) throw new Misuse('One file is expected: stillwell record OUT');
    const loaded = readSettingsOrMisuse(io.env, flags.settings);
    const dataDir = flags.data ?? loaded.settings.dataDir;
    const file = out === '-' ? undefined : await openFile(out);
    await listen(loaded, { dataDir, write: (line) => (file ?? process.stdout).write(`${line}\n`), io });
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

interface Listening {
  dataDir: string;
  write: (line: string) => void;
  io: Io;
}

async function listen(loaded: LoadedSettings, { dataDir, write, io }: Listening): Promise<void> {
  const recorder = newRecorder(write, Date.now);
  const beganMs = Date.now();
  recorder.acts(cardsNow(actsKept(dataDir), beganMs));
  const broker = await connect(loaded, dataDir, (topic, payload, how) =>
    recorder.message(topic, payload, how),
  );
  const takeActs = (): void => recorder.acts(actsKept(dataDir).filter((row) => row.atMs >= beganMs));
  const timer = setInterval(takeActs, ACTS_EVERY_MS);
  newLog(io)('info', 'Recording. End with Ctrl-C.');
  await untilEnded();
  clearInterval(timer);
  await broker.close();
  takeActs();
  newLog(io)('info', `Recorded ${recorder.counts.messages} messages and ${recorder.counts.acts} acts.`);
}

/** Acts as the server has kept them; a store that is not there yet has none. */
function actsKept(dataDir: string): ActRow[] {
  const store = openStore(join(dataDir, STORE_FILE), { as: 'visitor' });
  try {
    return store.acts({ fromMs: 0 });
  } finally {
    store.close();
  }
}

async function connect(
  { settings, secrets }: LoadedSettings,
  dataDir: string,
  onMessage: OnMessage,
): Promise<Broker> {
  const { broker } = settings;
  if (broker.kind === 'outside') {
    const password = secrets.brokerPassword?.();
    return openBrokerClient({
      url: broker.url,
      clientId: `${broker.clientId}-record`,
      version: broker.protocolVersion,
      root: settings.root,
      onMessage,
      firstFailure: 'reject',
      ...(broker.username !== undefined && { user: broker.username }),
      ...(password !== undefined && { password }),
      ...(broker.caFile !== undefined && { caFile: broker.caFile }),
      ...(broker.certFile !== undefined && { certFile: broker.certFile }),
      ...(broker.keyFile !== undefined && { keyFile: broker.keyFile }),
    });
  }
  const { password, row } = await makeCredential(LISTENER, { madeMs: Date.now() });
  const store = openStore(join(dataDir, STORE_FILE), { as: 'visitor' });
  store.commit([{ change: 'credential', row: { ...row, listens: true } }]);
  store.close();
  return openBrokerClient({
    url: `mqtt://${broker.host}:${broker.port}`,
    clientId: LISTENER,
    version: 4,
    root: settings.root,
    user: LISTENER,
    password,
    onMessage,
    firstFailure: 'reject',
  });
}
