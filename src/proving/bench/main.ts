/**
 * `npm run bench`: what the line costs, in one run on this machine. Speeds are ratios within the run or figures beside their target;
 * machines differ, so compare runs on one machine only. `-- --json` prints one object, `-- --quick` takes smaller sizes.
 */
import { fileURLToPath } from 'node:url';
import { availableParallelism } from 'node:os';
import { benchDisk } from './disk.ts';
import { benchEndToEnd, benchNotice, type Sizes } from './end-to-end.ts';
import { benchEngine } from './engine.ts';
import { benchReplay } from './replay.ts';
import { benchStations } from './stations.ts';

interface Row {
  what: string;
  figure: string;
  wanted: string;
}

const quick = process.argv.includes('--quick');
const json = process.argv.includes('--json');
const SIZES: Sizes = quick
  ? { connections: 50, nodesEach: 4, packsEach: 12, warmEach: 4 }
  : { connections: 200, nodesEach: 10, packsEach: 20, warmEach: 5 };
const DAYS = quick ? 3 : 30;

function progress(what: string): void {
  process.stderr.write(`${what} …\n`);
}

progress('stations');
const stations = benchStations(quick ? 2000 : 20_000, 200);
progress('engine');
const engine = benchEngine(quick ? 3 : 14, 200);
progress('disk');
const disk = benchDisk(30, 5);
progress('end to end');
const whole = await benchEndToEnd(SIZES);
progress('notices');
const notice = await benchNotice({ ...SIZES, nodesEach: 5, packsEach: 30 }, whole.oursPerS / 2);
progress('replay');
const main = fileURLToPath(new URL('../../../main.js', import.meta.url));
const replay = await benchReplay(main, DAYS);

const others = whole.cpuUs - stations.decodeUs - stations.intakeUs - stations.engineUs - stations.commitUs;
const n = (value: number, digits = 0): string =>
  value.toLocaleString('en', { maximumFractionDigits: digits, minimumFractionDigits: digits });
const rows: Row[] = [
  {
    what: 'end to end, share of a no-op subscriber',
    figure: `${n(whole.share, 2)} (${n(whole.oursPerS)} of ${n(whole.noOpPerS)} msg/s, ${n(whole.wells)} wells)`,
    wanted: '0.5',
  },
  {
    what: 'CPU a message, in all',
    figure: `${n(whole.cpuUs, 1)} us (no-op subscriber alone ${n(whole.noOpCpuUs, 1)})`,
    wanted: '30 us',
  },
  { what: '  decode', figure: `${n(stations.decodeUs, 1)} us`, wanted: '' },
  { what: '  intake', figure: `${n(stations.intakeUs, 1)} us`, wanted: '' },
  { what: '  merge, cycles, water, watches', figure: `${n(stations.engineUs, 1)} us`, wanted: '' },
  { what: '  commit', figure: `${n(stations.commitUs, 1)} us`, wanted: '' },
  { what: '  broker, sockets and the rest', figure: `${n(others, 1)} us`, wanted: '' },
  {
    what: 'engine, all watches on',
    figure: `${n(engine.readingsPerS / 1e6, 2)} M readings/s`,
    wanted: '2 M',
  },
  { what: 'a reading on disk, time included', figure: `${n(disk.bytesPerReading, 3)} B`, wanted: '0.50 B' },
  { what: 'a channel-month (5 s)', figure: `${n(disk.monthMs, 1)} ms`, wanted: '100 ms' },
  { what: 'a channel-day (5 s)', figure: `${n(disk.dayMs, 1)} ms`, wanted: '' },
  { what: 'saved state of a well', figure: `${n(engine.stateBytes)} B`, wanted: '8,192 B' },
  {
    what: 'memory of 1,000 wells',
    figure: `${n(engine.memoryMiBFor1000)} MiB of states; server with ${n(whole.wells)} live wells ${n(whole.rssMiB)} MiB`,
    wanted: '512 MiB',
  },
  {
    what: 'replay',
    figure: `${n(replay.readingsPerS / 1e6, 2)} M readings/s (${n(replay.readings / 1e6, 1)} M in ${n(replay.seconds, 1)} s)`,
    wanted: '0.5 M',
  },
  {
    what: 'replay, most memory',
    figure: replay.peakMiB === undefined ? 'not told by this system' : `${n(replay.peakMiB)} MiB`,
    wanted: '200 MiB',
  },
  {
    what: 'reading to notice, at half load',
    figure: `median ${n(notice.medianMs)} ms, 99 % ${n(notice.p99Ms)} ms (${n(notice.notices)} notices)`,
    wanted: '2,000 ms',
  },
];

if (json) {
  process.stdout.write(
    `${JSON.stringify({
      endToEndShare: whole.share,
      cpuUsPerMessage: whole.cpuUs,
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
  for (const { what, figure, wanted } of rows)
    process.stdout.write(`${what.padEnd(40)} ${figure}${wanted === '' ? '' : `  [wanted ${wanted}]`}\n`);
}
