/** `stillwell demo`: an invented farm with four wells, sixty days of its past through the real intake, then live. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { SingleBar } from 'cli-progress';
import { DEFAULT_SETTINGS } from '../../config/read-settings.ts';
import type { Settings } from '../../config/settings.ts';
import { alderBench } from '../../proving/farm.ts';
import type { DemoOrder, DemoWord } from '../../proving/demo/worker.ts';
import { programVersion, siteFolder } from '../place.ts';
import { openStation, type Station } from '../station.ts';
import { EXIT, Misuse, type Command, type Io } from './command.ts';
import { newLog, untilEnded } from './log.ts';
import { readOptions, readWhole } from './options.ts';

const DAY_MS = 86_400_000;
const USUAL_DAYS = 60;
const USUAL_PORT = 8421;

export const demoCommand: Command = {
  name: 'demo',
  usage: 'demo [--days N] [--port PORT]',
  about: 'Look at it first: an invented farm with four simulated wells, three of them in trouble.',
  more: `The farm, Alder Bench, is invented and its wells are simulated. Sixty days of its past go through the same intake as the
readings of real wells; that takes about a minute. Then it goes on in real time until you end it with Ctrl-C. Nothing of it is kept.

  --days N     how many days of past (60 unless given)
  --port PORT  the port of the pages, which open on this computer alone (8421 unless given)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, { days: { type: 'string' }, port: { type: 'string' } });
    if (names.length > 0)
      throw new Misuse(`Cannot show "${names[0]}": demo takes options alone. Try: stillwell demo --help`);
    const days = readWhole('days', flags.days, { from: 1, to: 400 }) ?? USUAL_DAYS;
    const port = readWhole('port', flags.port, { from: 0, to: 65_535 }) ?? USUAL_PORT;
    const dataDir = mkdtempSync(join(tmpdir(), 'stillwell-demo-'));
    try {
      await show(io, { dataDir, days, port });
    } finally {
      rmSync(dataDir, { recursive: true, force: true });
    }
    return EXIT.ok;
  },
};

interface Shown {
  dataDir: string;
  days: number;
  port: number;
}

async function show(io: Io, { dataDir, days, port }: Shown): Promise<void> {
  const nowMs = Date.now();
  const fromMs = Math.floor((nowMs - days * DAY_MS) / 60_000) * 60_000;
  const shared = new SharedArrayBuffer(Float64Array.BYTES_PER_ELEMENT);
  const clock = new Float64Array(shared);
  clock[0] = fromMs;
  const time = { live: false };
  const now = (): number => (time.live ? Date.now() : clock[0]!);
  const log = newLog(io, now);
  const site = siteFolder();
  const station = await openStation({
    settings: demoSettings(dataDir, port),
    secrets: { webhooks: {} },
    version: programVersion(),
    now,
    log: (level, sentence) => (level === 'info' && !time.live ? undefined : log(level, sentence)),
    allowLocal: true,
    beatsByItself: false,
    gatherMs: 0,
    ...(site !== undefined && { siteFolder: site }),
  });
  for (const { card } of alderBench(nowMs)) station.live.act({ kind: 'card-changed', card }, 'demo');
  io.err(
    `Alder Bench, an invented farm: ${days} days of its past are on their way. Pages: ${station.web.url}`,
  );
  const order: DemoOrder = {
    brokerUrl: `mqtt://127.0.0.1:${station.brokerPort}`,
    fromMs,
    nowMs,
    clock: shared,
  };
  const worker = new Worker(new URL(workerFile()), { workerData: order });
  const beater = { timer: undefined as NodeJS.Timeout | undefined };
  const ended = untilEnded();
  const gone = new Promise<string>((resolve) => {
    worker.on('error', (error) => resolve(error.message));
    worker.on('message', (word: DemoWord) => {
      if (word.word === 'failed') resolve(word.why);
    });
  });
  followPast(worker, station, io, { fromMs, nowMs, time, beater });
  const why = await Promise.race([ended, gone]);
  clearInterval(beater.timer);
  await worker.terminate();
  await station.close();
  if (typeof why === 'string') throw new Error(`Cannot go on with the demo: ${why}`);
}

/** From sources or built, the worker lies beside what imports it, under the same ending. */
function workerFile(): string {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new URL(`../../proving/demo/worker${ending}`, import.meta.url).href;
}

interface Past {
  fromMs: number;
  nowMs: number;
  time: { live: boolean };
  beater: { timer: NodeJS.Timeout | undefined };
}

function followPast(worker: Worker, station: Station, io: Io, past: Past): void {
  const began = performance.now();
  const bar = new SingleBar({
    format: 'past [{bar}] {percentage} %, {eta_formatted} left',
    stream: process.stderr,
    hideCursor: true,
    clearOnComplete: true,
  });
  if (io.progress) bar.start(past.nowMs - past.fromMs, 0);
  worker.on('message', (word: DemoWord) => {
    if (word.word === 'past') {
      station.live.beat();
      if (io.progress) bar.update(word.toMs - past.fromMs);
    } else if (word.word === 'live') {
      if (io.progress) bar.stop();
      past.time.live = true;
      past.beater.timer = setInterval(() => station.live.beat(), 1000);
      const { counts } = station.live.state();
      io.err(
        `${counts.readings.toLocaleString('en')} readings of the past in ${((performance.now() - began) / 1000).toFixed(0)} s; now live. End with Ctrl-C.`,
      );
      for (const row of station.store.alarms({ standing: true }))
        io.err(`  ${row.well}: ${row.alarm}. ${row.event.why ?? ''}`);
    }
  });
}

function demoSettings(dataDir: string, port: number): Settings {
  return {
    ...DEFAULT_SETTINGS,
    dataDir,
    broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
    web: { host: '127.0.0.1', port },
    notices: [
      { name: 'farm office', mqtt: { topic: 'alder-bench/notices' }, priorities: ['now', 'soon', 'note'] },
    ],
  };
}
