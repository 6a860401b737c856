/**
 * Readings: a run followed with a guide, what was read over the years, the points that calibrate a
 * clamp, and a measured draw.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { CalibrationAnswer, ClampReading } from '../../../shared/api/readings.ts';
import type { Answer, Query } from '../../../shared/api/routes.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { guideText } from '../../../shared/text/en/checks/guided-run.ts';
import { DAY_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { median } from '../../core/baseline/robust.ts';
import { calibrationPoints, type ClampPair } from '../../logbook/readings/calibration.ts';
import { currentEntries, entriesOf, type EntryOf } from '../../../shared/entries/entry.ts';
import { guidedRun } from '../../logbook/readings/guided-run.ts';
import { readingSi } from '../../logbook/entries/read-reading.ts';
import { motorReading } from '../../logbook/readings/motor-reading.ts';
import { windingSets } from '../../logbook/readings/winding-sets.ts';
import { readingGroups } from '../../logbook/readings/reading-groups.ts';
import { channelCode } from '../../core/domain/channels.ts';
import { sourcesOf } from '../../core/domain/sources.ts';
import { airChargeFromDraw, type DrawResult } from '../../core/hydraulics/measured-draw.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { wellChart } from '../well-chart.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

const S_MS = 1000;
/** A page's clock may be a little ahead of ours. */
const CLOCK_TOLERANCE_MS = MINUTE_MS;
/** What the sensors show "now": the runs of a week. */
const RECENT_MS = 7 * DAY_MS;
/** A meter is read in these seconds, and the clamp's median over them is held against it. */
const CLAMP_WINDOW_S = 10;
/** A rest before a run, clear of its edges. */
const ZERO_WINDOW_S = { from: 70, to: 10 };

export async function guidedRunAnswer(
  deps: WebDeps,
  name: string,
  { since, pump }: Query<'guidedRun'>,
): Promise<Answer<'guidedRun'>> {
  const live = await requireWell(deps, name);
  const card = live.card.pumps.find(({ id }) => id === pump);
  const now = live.status.pumps.find((one) => one.pump === pump);
  if (!card || !now) throw new ProblemError(404, texts().noSuchPump({ well: name, pump }));
  const nowMs = deps.now();
  if (since > nowMs + CLOCK_TOLERANCE_MS || nowMs - since > DAY_MS)
    throw new ProblemError(400, texts().sinceWithinDay);
  const heardMs = live.sensors.find(({ channel }) => channel === currentChannel(pump))?.lastMs;
  const baseline = live.normals.find((one) => one.pump === pump)?.baseline;
  const cycles = await deps.store.cycles(name, since, nowMs + DAY_MS);
  const run = guidedRun({
    sinceMs: since,
    nowMs,
    control: card.control,
    cycles: cycles.map(({ event }) => event).filter((event) => event.pump === pump),
    ...omitUndefined({
      lastReadingMs: heardMs,
      running: now.running,
      runningSinceMs: now.sinceMs,
      normalRanS: baseline?.ranS?.median,
    }),
  });
  const clamp = await clampReading(deps, live, pump, nowMs);
  const { pressureKpa } = live.status;
  return {
    nowMs,
    pump,
    run,
    ...guideText(run),
    ...(pressureKpa !== undefined && { pressureKpa }),
    ...(clamp && { clamp }),
  };
}

function currentChannel(pump: string): string {
  return pump === 'p1' ? 'current' : `${pump}/current`;
}

/** Where this pump's current comes from now. */
function clampSource(
  live: LiveWell,
  pump: string,
  nowMs: number,
): { node: string; channel: string } | undefined {
  const code = channelCode(currentChannel(pump));
  const source = sourcesOf(live.card).find(
    (one) => one.code === code && one.sinceMs <= nowMs && nowMs < one.untilMs,
  );
  return source && { node: source.node, channel: source.nodeChannel };
}

async function clampReading(
  deps: WebDeps,
  live: LiveWell,
  pump: string,
  nowMs: number,
): Promise<ClampReading | undefined> {
  const source = clampSource(live, pump, nowMs);
  const reads = await rawAmps(deps, live, { pump, fromMs: nowMs - CLAMP_WINDOW_S * S_MS, toMs: nowMs + 1 });
  const readA = median(reads);
  if (!source || readA === undefined) return undefined;
  const correction = live.sensors.find(({ channel }) => channel === currentChannel(pump))?.correction;
  const hello = (await deps.store.nodes()).find(({ node }) => node === source.node)?.hello;
  const stepA = hello?.channels.find(({ n }) => n === source.channel)?.step;
  return {
    ...source,
    readA,
    amps: correction ? correction.gain * readA + correction.offset : readA,
    count: reads.length,
    ...(stepA !== undefined && { stepA }),
  };
}

/** As the node sent them, second by second. */
async function rawAmps(
  deps: WebDeps,
  live: LiveWell,
  window: { pump: string; fromMs: number; toMs: number },
): Promise<number[]> {
  const { pump, fromMs, toMs } = window;
  const points = Math.ceil((toMs - fromMs) / S_MS);
  const chart = await wellChart(deps.store, live.card, {
    channel: currentChannel(pump),
    fromMs,
    toMs,
    points,
  });
  return chart.mean.filter((value) => value !== null);
}

export async function readingsAnswer(deps: WebDeps, name: string): Promise<Answer<'readings'>> {
  const live = await requireWell(deps, name);
  const nowMs = deps.now();
  const entries = currentEntries(await deps.logbook.entries(name));
  const runs = (await deps.store.cycles(name, nowMs - RECENT_MS, nowMs + 1)).map(({ event }) => event);
  const pumps = live.card.pumps.map(({ id }) => id);
  const calibrations = await Promise.all(
    pumps.map((pump) =>
      calibrationAnswer(deps, live, { pump, entries: entriesOf(entries, 'reading'), nowMs }),
    ),
  );
  return {
    nowMs,
    groups: readingGroups(entries, runs, pumps, (body) => motorReading(body, live.card)),
    windings: windingSets(entriesOf(entries, 'reading'), live.card),
    calibration: calibrations.flat(),
  };
}

async function calibrationAnswer(
  deps: WebDeps,
  live: LiveWell,
  input: { pump: string; entries: readonly EntryOf<'reading'>[]; nowMs: number },
): Promise<CalibrationAnswer[]> {
  const { pump, entries, nowMs } = input;
  const source = clampSource(live, pump, nowMs);
  const all = entries.flatMap((entry) => clampPairs(entry, pump, live.card.pumps.length === 1));
  const firstMs = all[0]?.atMs;
  if (!source || firstMs === undefined) return [];
  const calibratedMs = await lastCalibratedMs(deps, source, firstMs);
  const pairs = all.filter(({ atMs }) => atMs > calibratedMs);
  const found = calibrationPoints(pairs, await zeroA(deps, live, pump, nowMs));
  return [
    {
      pump,
      ...source,
      pairs: pairs.length,
      ...(found.is === 'two' ? { points: found.points, usesZero: found.usesZero } : { reason: found.reason }),
    },
  ];
}

function clampPairs(
  { atMs, body }: EntryOf<'reading'>,
  pump: string,
  only: boolean,
): (ClampPair & { atMs: number })[] {
  const read = readingSi(body);
  const clamp = parseQuantity(body.clamp, 'current');
  const mine = body.pump === pump || (only && body.pump === undefined);
  if (read?.what !== 'amps' || !mine || !('si' in clamp)) return [];
  return [{ readA: clamp.si, trueA: read.si, atMs }];
}

/** What the node reads means something else from then on. */
async function lastCalibratedMs(
  deps: WebDeps,
  source: { node: string; channel: string },
  fromMs: number,
): Promise<number> {
  const acts = await deps.store.acts({ fromMs });
  const last = acts.findLast(({ kind, body }) => {
    if (kind !== 'calibrated' || typeof body !== 'object' || body === null) return false;
    return (
      'node' in body && body.node === source.node && 'channel' in body && body.channel === source.channel
    );
  });
  return last?.atMs ?? -1;
}

/** What the clamp shows at rest, before the last run. */
async function zeroA(
  deps: WebDeps,
  live: LiveWell,
  pump: string,
  nowMs: number,
): Promise<number | undefined> {
  const cycles = await deps.store.cycles(live.status.well, nowMs - DAY_MS, nowMs + 1);
  const last = cycles.findLast(({ event }) => event.pump === pump);
  if (!last || (last.event.restedS ?? 0) < 2 * ZERO_WINDOW_S.from) return undefined;
  const [fromMs, toMs] = [
    last.startedMs - ZERO_WINDOW_S.from * S_MS,
    last.startedMs - ZERO_WINDOW_S.to * S_MS,
  ];
  return median(await rawAmps(deps, live, { pump, fromMs, toMs }));
}

/** @throws ProblemError 400 for a quantity that is none. */
export async function measuredDrawAnswer(
  deps: WebDeps,
  name: string,
  query: Query<'measuredDraw'>,
): Promise<Answer<'measuredDraw'>> {
  const { card } = await requireWell(deps, name);
  const volumeL = card.tank?.volumeL;
  const result = airChargeFromDraw({
    drawnL: parseQueryQuantity('drawn', query.drawn, 'volume'),
    beforeKpa: parseQueryQuantity('before', query.before, 'pressure'),
    afterKpa: parseQueryQuantity('after', query.after, 'pressure'),
    altitudeM: card.altitudeM,
    ...(query.fellAway !== undefined && { pressureCollapsed: query.fellAway }),
    ...(volumeL !== undefined && { volumeL }),
  });
  const about = { altitudeKnown: card.altitudeKnown, ...(volumeL !== undefined && { tankL: volumeL }) };
  return { ...about, ...drawAnswer(result) };
}

function drawAnswer(result: DrawResult): Omit<Answer<'measuredDraw'>, 'altitudeKnown' | 'tankL'> {
  if (result.is === 'not-found') return { found: false, reason: result.because };
  const { prechargeKpa, errorRatio, ranEmpty } = result;
  if (prechargeKpa === undefined) return { found: false, reason: 'no-tank-size', errorRatio };
  return { found: true, prechargeKpa, errorRatio, ranEmpty };
}

function parseQueryQuantity(key: string, text: string, dimension: Dimension): number {
  const read = parseQuantity(text, dimension);
  if ('problem' in read)
    throw new ProblemError(400, texts().queryProblem({ key, problem: read.problem, value: text }));
  return read.si;
}
