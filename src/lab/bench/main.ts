/**
 * `npm run bench`: what the line costs, in one run on this machine. Speeds are ratios within the
 * run or figures beside their target; machines differ, so compare runs on one machine only.
 */
import { fileURLToPath } from 'node:url';
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { benchDisk } from './disk.ts';
import { benchEndToEnd, benchNotice, type Sizes } from './end-to-end.ts';
import { benchEngine } from './engine.ts';
import { benchReplay } from './replay.ts';
import { benchStages } from './stages.ts';

interface Row {
  what: string;
  figure: string;
  target: string;
}

const USAGE = `Usage: npm run bench -- [options]

Measures what the line costs on this machine; takes some minutes.

  --quick  smaller sizes
  --json   one JSON object
  --help   this help
`;

const { quick = false, json = false, help = false } = readOptions();
if (help) {
  process.stdout.write(USAGE);
  process.exit(0);
}

function readOptions(): { quick?: boolean; json?: boolean; help?: boolean } {
  const flag = { type: 'boolean' } as const;
  try {
    return parseArgs({ options: { quick: flag, json: flag, help: flag } }).values;
  } catch (error) {
    return usageError(error instanceof Error ? error.message : String(error));
  }
}

function usageError(why: string): never {
  process.stderr.write(`${why}\n\n${USAGE}`);
  process.exit(2);
}

const SIZES: Sizes = quick
  ? { connections: 50, nodesEach: 4, packsEach: 12, warmUpEach: 4 }
  : { connections: 200, nodesEach: 10, packsEach: 20, warmUpEach: 5 };
const DAYS = quick ? 3 : 30;

function progress(what: string): void {
  process.stderr.write(`${what} …\n`);
}

progress('stations');
const stations = await benchStages(quick ? 2000 : 20_000, 200);
progress('engine');
const engine = benchEngine(quick ? 3 : 14, 200);
progress('disk');
const disk = await benchDisk(30, 5);
progress('end to end');
const endToEnd = await benchEndToEnd(SIZES);
progress('notices');
const notice = await benchNotice({ ...SIZES, nodesEach: 5, packsEach: 30 }, endToEnd.oursPerS / 2);
progress('replay');
const main = fileURLToPath(new URL('../../../main.js', import.meta.url));
const replay = await benchReplay(main, DAYS);

const others = endToEnd.cpuUs - stations.decodeUs - stations.intakeUs - stations.engineUs - stations.commitUs;
const n = (value: number, digits = 0): string =>
  value.toLocaleString('en', { maximumFractionDigits: digits, minimumFractionDigits: digits });
const rows: Row[] = [
  {
    what: 'end to end, share of a no-op subscriber',
    figure: `${n(endToEnd.ratio, 2)} (${n(endToEnd.oursPerS)} of ${n(endToEnd.noOpPerS)} msg/s, ${n(endToEnd.wells)} wells)`,
    target: '0.5',
  },
  {
    what: 'CPU a message, in all',
    figure: `${n(endToEnd.cpuUs, 1)} us (no-op subscriber alone ${n(endToEnd.noOpCpuUs, 1)})`,
    target: '30 us',
  },
  { what: '  decode', figure: `${n(stations.decodeUs, 1)} us`, target: '' },
  { what: '  intake', figure: `${n(stations.intakeUs, 1)} us`, target: '' },
  { what: '  merge, cycles, water, watches', figure: `${n(stations.engineUs, 1)} us`, target: '' },
  { what: '  commit', figure: `${n(stations.commitUs, 1)} us`, target: '' },
  { what: '  broker, sockets and the rest', figure: `${n(others, 1)} us`, target: '' },
  {
    what: 'engine, all watches on',
    figure: `${n(engine.readingsPerS / 1e6, 2)} M readings/s`,
    target: '2 M',
  },
  { what: 'a reading on disk, time included', figure: `${n(disk.bytesPerReading, 3)} B`, target: '0.50 B' },
  { what: 'a channel-month (5 s)', figure: `${n(disk.monthMs, 1)} ms`, target: '100 ms' },
  { what: 'a channel-day (5 s)', figure: `${n(disk.dayMs, 1)} ms`, target: '' },
  { what: 'saved state of a well', figure: `${n(engine.stateBytes)} B`, target: '8,192 B' },
  {
    what: 'memory of 1,000 wells',
    figure: `${n(engine.memoryMiBFor1000)} MiB of states; server with ${n(endToEnd.wells)} live wells ${n(endToEnd.rssMiB)} MiB`,
    target: '512 MiB',
  },
  {
    what: 'replay',
    figure: `${n(replay.readingsPerS / 1e6, 2)} M readings/s (${n(replay.readings / 1e6, 1)} M in ${n(replay.seconds, 1)} s)`,
    target: '0.5 M',
  },
  {
    what: 'replay, most memory',
    figure: replay.peakMiB === undefined ? 'not told by this system' : `${n(replay.peakMiB)} MiB`,
    target: '200 MiB',
  },
  {
    what: 'reading to notice, at half load',
    figure: `median ${n(notice.medianMs)} ms, 99 % ${n(notice.p99Ms)} ms (${n(notice.notices)} notices)`,
    target: '2,000 ms',
  },
];

if (json) {
  process.stdout.write(
    `${JSON.stringify({
      endToEndShare: endToEnd.ratio,
      cpuUsPerMessage: endToEnd.cpuUs,
      engineReadingsPerS: engine.readingsPerS,
      bytesPerReading: disk.bytesPerReading,
      channelMonthMs: disk.monthMs,
      channelDayMs: disk.dayMs,
      stateBytesPerWell: engine.stateBytes,
      replayReadingsPerS: replay.readingsPerS,
      replayMiB: replay.peakMiB,
      noticeP99Ms: notice.p99Ms,
    })}\n`,
  );
} else {
  process.stdout.write(
    `Node ${process.versions.node}, ${availableParallelism()} cores${quick ? ', small sizes' : ''}\n\n`,
  );
  for (const { what, figure, target } of rows)
    process.stdout.write(`${what.padEnd(40)} ${figure}${target === '' ? '' : `  [wanted ${target}]`}\n`);
}
