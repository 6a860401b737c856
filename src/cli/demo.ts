/**
 * `stillwell demo`: an invented farm with four wells, sixty days of its past through the real
 * intake, then live.
 */
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
import { EXIT, type CommandBuilder, type Io } from './command.ts';
import { newLog, untilShutdown } from './server-log.ts';
import { wholeNumber } from './options.ts';
import { texts } from './texts.ts';

const DEFAULT_DAYS = 60;
const DEFAULT_PORT = 8421;

export const demoCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().showAlderBenchAnInvented)
    .option(
      '--days <n>',
      texts().daysOfPastDefault(DEFAULT_DAYS),
      wholeNumber('--days', { from: 1, to: 400 }),
    )
    .option(
      '--port <port>',
      texts().portOfThePagesOnly(DEFAULT_PORT),
      wholeNumber('--port', { from: 0, to: 65_535 }),
    )
    .addHelpText('after', texts().examplesOfDemo)
    .action(
      action(async ({ days = DEFAULT_DAYS, port = DEFAULT_PORT }) => {
        const dataDir = mkdtempSync(join(tmpdir(), 'stillwell-demo-'));
        try {
          await runDemo(io, { dataDir, days, port });
        } finally {
          rmSync(dataDir, { recursive: true, force: true });
        }
        return EXIT.ok;
      }),
    );
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
    secrets: { channels: {} },
    version: programVersion(),
    now,
    log: (level, sentence) => (level === 'info' && !time.live ? undefined : log(level, sentence)),
    allowLocal: true,
    autoTick: false,
    batchDelayMs: 0,
    ...(site !== undefined && { siteFolder: site }),
  });
  for (const { card } of demoWells(nowMs))
    await station.live.applyAct({ kind: 'card-changed', card }, 'demo');
  io.err(texts().alderBenchAnInventedFarm({ days, url: station.web.url }));
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
  if (typeof why === 'string') throw new Error(texts().cannotGoOnWithTheDemo(why));
}

/** From sources or built, the worker lies beside what imports it, under the same ending. */
function workerFile(): string {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new URL(`../lab/demo/worker${ending}`, import.meta.url).href;
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
    format: texts().progressOfThePast,
    stream: process.stderr,
    hideCursor: true,
    clearOnComplete: true,
  });
  if (io.progress) bar.start(history.nowMs - history.fromMs, 0);
  worker.on('message', (message: DemoMessage) => {
    if (message.type === 'past') {
      void station.live.tick();
      if (io.progress) bar.update(message.toMs - history.fromMs);
    } else if (message.type === 'live') {
      if (io.progress) bar.stop();
      history.time.live = true;
      history.ticker.timer = setInterval(() => void station.live.tick(), 1000);
      const { counts } = station.live.state();
      io.err(
        texts().readingsOfThePast({
          readings: counts.readings,
          value: Math.round((performance.now() - began) / 1000),
        }),
      );
      void printActiveAlarms(station, io);
    }
  });
}

async function printActiveAlarms({ store }: RunningServer, io: Io): Promise<void> {
  for (const row of await store.alarms({ active: true }))
    io.err(`  ${row.well}: ${row.alarm}. ${row.event.why ?? ''}`);
}

function demoSettings(dataDir: string, port: number): Settings {
  return {
    ...DEFAULT_SETTINGS,
    dataDir,
    broker: { kind: 'built-in', host: '127.0.0.1', port: 0 },
    web: { host: '127.0.0.1', port },
    notices: [
      {
        name: texts().farmOffice,
        mqtt: { topic: 'alder-bench/notices' },
        priorities: ['now', 'soon', 'note'],
      },
    ],
  };
}
