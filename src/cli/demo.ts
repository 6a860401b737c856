/** `stillwell demo`: an invented farm with four wells, sixty days of its past through the real intake, then live. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { SingleBar } from 'cli-progress';
import { DAY_MS, MINUTE_MS } from '../../shared/units/duration.ts';
import { DEFAULT_SETTINGS } from '../config/read-settings.ts';
import type { Settings } from '../config/settings.ts';
import { demoWells } from '../lab/demo-wells.ts';
import type { DemoTask, DemoMessage } from '../lab/demo/worker.ts';
import { programVersion, siteFolder } from '../server/install-paths.ts';
import { openServer, type RunningServer } from '../server/server.ts';
import { EXIT, UsageError, type Command, type Io } from './command.ts';
import { newLog, untilShutdown } from './server-log.ts';
import { readOptions, readWhole } from './options.ts';

const DEFAULT_DAYS = 60;
const DEFAULT_PORT = 8421;

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
      throw new UsageError(`Cannot show "${names[0]}": demo takes options alone. Try: stillwell demo --help`);
    const days = readWhole('days', flags.days, { from: 1, to: 400 }) ?? DEFAULT_DAYS;
    const port = readWhole('port', flags.port, { from: 0, to: 65_535 }) ?? DEFAULT_PORT;
    const dataDir = mkdtempSync(join(tmpdir(), 'stillwell-demo-'));
    try {
      await runDemo(io, { dataDir, days, port });
    } finally {
      rmSync(dataDir, { recursive: true, force: true });
    }
    return EXIT.ok;
  },
};

interface DemoOptions {
  dataDir: string;
  days: number;
  port: number;
}

async function runDemo(io: Io, { dataDir, days, port }: DemoOptions): Promise<void> {
  const nowMs = Date.now();
  const fromMs = Math.floor((nowMs - days * DAY_MS) / MINUTE_MS) * MINUTE_MS;
  const shared = new SharedArrayBuffer(Float64Array.BYTES_PER_ELEMENT);
  const clock = new Float64Array(shared);
  clock[0] = fromMs;
  const time = { live: false };
  const now = (): number => (time.live ? Date.now() : clock[0]!);
  const log = newLog(io, now);
  const site = siteFolder();
  const station = await openServer({
    settings: demoSettings(dataDir, port),
    secrets: { webhooks: {} },
    version: programVersion(),
    now,
    log: (level, sentence) => (level === 'info' && !time.live ? undefined : log(level, sentence)),
    allowLocal: true,
    autoTick: false,
    batchDelayMs: 0,
    ...(site !== undefined && { siteFolder: site }),
  });
  for (const { card } of demoWells(nowMs)) station.live.applyAct({ kind: 'card-changed', card }, 'demo');
  io.err(
    `Alder Bench, an invented farm: ${days} days of its past are on their way. Pages: ${station.web.url}`,
  );
  const task: DemoTask = {
    brokerUrl: `mqtt://127.0.0.1:${station.brokerPort}`,
    fromMs,
    nowMs,
    clock: shared,
  };
  const worker = new Worker(new URL(workerFile()), { workerData: task });
  const ticker = { timer: undefined as NodeJS.Timeout | undefined };
  const ended = untilShutdown();
  const failed = new Promise<string>((resolve) => {
    worker.on('error', (error) => resolve(error.message));
    worker.on('message', (message: DemoMessage) => {
      if (message.type === 'failed') resolve(message.why);
    });
  });
  trackHistory(worker, station, io, { fromMs, nowMs, time, ticker });
  const why = await Promise.race([ended, failed]);
  clearInterval(ticker.timer);
  await worker.terminate();
  await station.close();
  if (typeof why === 'string') throw new Error(`Cannot go on with the demo: ${why}`);
}

/** From sources or built, the worker lies beside what imports it, under the same ending. */
function workerFile(): string {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new URL(`../../proving/demo/worker${ending}`, import.meta.url).href;
}

interface DemoHistory {
  fromMs: number;
  nowMs: number;
  time: { live: boolean };
  ticker: { timer: NodeJS.Timeout | undefined };
}

function trackHistory(worker: Worker, station: RunningServer, io: Io, history: DemoHistory): void {
  const began = performance.now();
  const bar = new SingleBar({
    format: 'past [{bar}] {percentage} %, {eta_formatted} left',
    stream: process.stderr,
    hideCursor: true,
    clearOnComplete: true,
  });
  if (io.progress) bar.start(history.nowMs - history.fromMs, 0);
  worker.on('message', (message: DemoMessage) => {
    if (message.type === 'past') {
      station.live.tick();
      if (io.progress) bar.update(message.toMs - history.fromMs);
    } else if (message.type === 'live') {
      if (io.progress) bar.stop();
      history.time.live = true;
      history.ticker.timer = setInterval(() => station.live.tick(), 1000);
      const { counts } = station.live.state();
      io.err(
        `${counts.readings.toLocaleString('en')} readings of the past in ${((performance.now() - began) / 1000).toFixed(0)} s; now live. End with Ctrl-C.`,
      );
      for (const row of station.store.alarms({ active: true }))
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
