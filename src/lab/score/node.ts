/**
 * A node of the contract at a simulated well: it reads its sensors, packs what it read, and
 * publishes; it restarts, loses its supply, has a clock that jumps or none. It knows nothing of
 * truth but the time; what was lost on the way is noted beside it, because no reader can be asked
 * for it.
 */
import { DAY_S, MINUTE_MS } from '../../../shared/units/duration.ts';
import { encodeHello } from '../../core/decode/hello.ts';
import type { Presence } from '../../core/decode/messages.ts';
import { encodePresence } from '../../core/decode/presence.ts';
import type { PlantSample } from '../plant/params.ts';
import type { NodePlan } from './case.ts';
import type { MeteredWell } from './metered-well.ts';
import {
  deliver,
  isConnected,
  lowestHeld,
  newLink,
  advanceLink,
  sendPack,
  WILL_AFTER_MS,
  type DeliveredMessage,
  type HeldPack,
  type Link,
} from './link.ts';
import {
  MAX_RECORDS,
  newChannelPrefix,
  newRecords,
  packBytes,
  type ChannelPrefix,
  type Records,
} from './pack-bytes.ts';
import { sensorsOf, type Sensor } from './sensors.ts';

/** A time in which nothing that was measured comes through, or comes at a wrong time. */
export interface Gap {
  fromMs: number;
  untilMs: number;
}

interface Downtime {
  fromMs: number;
  untilMs: number;
  lastGasp: boolean;
}

export interface SimulatedNode {
  name: string;
  plan: NodePlan;
  sensors: Sensor[];
  prefixes: ChannelPrefix[];
  records: Records;
  /** First reading of the open pack. */
  packFromMs: number;
  link: Link;
  downtimes: Downtime[];
  /** The next break, or the one that lasts. */
  nextDowntime: number;
  running: boolean;
  willSent: boolean;
  boot: number;
  bootMs: number;
  seq: number;
  lastMs: number;
  gaps: Gap[];
  readings: number;
}

/** As in the contract's example. */
const HOLDS_S = DAY_S;
/** By exception, a value is sent again after this long at the latest. */
const RESEND_MS = MINUTE_MS;
/**
 * The error of a node's oscillator: within the contract's 100 ppm, usual for a cheap crystal
 * (common practice, no source).
 */
const DRIFT = 15e-6;
/** From the supply's return until the first reading goes out. */
const START_UP_MS = 3_000;
/** The contract believes a clock that is wrong by less than this. */
const MAX_CLOCK_ERROR_MS = 300_000;
/** By exception, a fault is news after any value, and a value after a fault. */
const FAULT_OFFSET = -1e9;
/** Room for one reading of each channel. */
const PACK_FULL_RECORDS = MAX_RECORDS - 64;

export function newSimulatedNode(
  setUp: { name: string; plan: NodePlan; well: MeteredWell; fromMs: number },
  arrive: (message: DeliveredMessage) => void,
): SimulatedNode {
  const { name, plan, well, fromMs } = setUp;
  const sensors = sensorsOf(plan, well);
  const link = newLink({
    outages: plan.outages ?? [],
    holdsMs: HOLDS_S * 1000,
    seed: well.seed ^ 0x5f3759df,
    onArrival: arrive,
    onConnected: (atMs) => announce(node, atMs),
    onDropped: (pack) => node.gaps.push({ fromMs: pack.fromMs, untilMs: pack.toMs }),
  });
  const node: SimulatedNode = {
    name,
    plan,
    sensors,
    prefixes: sensors.map(({ channel, unit }) => newChannelPrefix(channel, unit)),
    records: newRecords(),
    packFromMs: 0,
    link,
    downtimes: downtimesOf(plan),
    nextDowntime: 0,
    running: true,
    willSent: false,
    boot: bootNumber(well.seed, 0),
    bootMs: fromMs - START_UP_MS,
    seq: 0,
    lastMs: fromMs,
    gaps: believedJumps(plan),
    readings: 0,
  };
  announce(node, fromMs);
  return node;
}

function downtimesOf({ reboots, powerCuts }: NodePlan): Downtime[] {
  const all = [
    ...(reboots ?? []).map(({ atMs, downS }) => ({
      fromMs: atMs,
      untilMs: atMs + downS * 1000,
      lastGasp: false,
    })),
    ...(powerCuts ?? []),
  ];
  return all.sort((a, b) => a.fromMs - b.fromMs);
}

/**
 * Where a wrong clock is believed, and where it begins and ends, no reader can know when things
 * were.
 */
function believedJumps({ clockJumps, packS }: NodePlan): Gap[] {
  return (clockJumps ?? []).flatMap(({ fromMs, untilMs, byS }) => {
    const aroundMs = 2000 * packS;
    if (Math.abs(byS) * 1000 < MAX_CLOCK_ERROR_MS)
      return [{ fromMs: fromMs - aroundMs, untilMs: untilMs + aroundMs }];
    return [fromMs, untilMs].map((atMs) => ({ fromMs: atMs - aroundMs, untilMs: atMs + aroundMs }));
  });
}

/** Never used before under this name: random looking, and the same each time the case is played. */
function bootNumber(seed: number, turn: number): number {
  return 1 + ((Math.imul(seed + 977 * turn, 0x9e3779b1) >>> 0) + 0x100000000 * (turn % 1024));
}

/** The plant has come to a moment: samples in order of time. */
export function handleSample(node: SimulatedNode, sample: PlantSample): void {
  const { tMs } = sample;
  advanceDowntimes(node, tMs);
  advanceLink(node.link, tMs, node.running, () => publishPresence(node, 'gone', tMs));
  node.lastMs = tMs;
  if (!node.running) return;
  for (let at = 0; at < node.sensors.length; at++) readSensor(node, at, sample);
  const { records, plan } = node;
  if (records.n === 0) return;
  const nextMs = tMs + (plan.everyS || 1) * 1000;
  if (nextMs - node.packFromMs >= plan.packS * 1000 || records.n >= PACK_FULL_RECORDS) closePack(node);
}

/** The case is over: what is still open goes out. */
export function finishNode(node: SimulatedNode): void {
  if (node.running && node.records.n > 0) closePack(node);
}

function readSensor(node: SimulatedNode, at: number, sample: PlantSample): void {
  const sensor = node.sensors[at]!;
  const { tMs } = sample;
  if (sensor.everyMs > 0 && tMs % sensor.everyMs !== 0) return;
  const value = sensor.read(sample);
  const fault = sensor.fault?.(sample) ?? 0;
  if (value === undefined && fault === 0) return;
  if (sensor.everyMs === 0) {
    const shown = fault === 0 ? value! : FAULT_OFFSET * fault;
    const isNews = !(Math.abs(shown - sensor.lastSent) < sensor.changeBy);
    if (!isNews && tMs - sensor.lastSentMs < RESEND_MS) return;
    sensor.lastSentMs = tMs;
    sensor.lastSent = shown;
  }
  const { records } = node;
  if (records.n === 0) node.packFromMs = tMs;
  records.channel[records.n] = at;
  records.timeMs[records.n] = tMs;
  records.value[records.n] = fault === 0 ? value! : Number.NaN;
  records.fault[records.n++] = fault;
}

function closePack(node: SimulatedNode): void {
  const { records, plan, link, packFromMs } = node;
  const toMs = records.timeMs[records.n - 1]!;
  const baseMs = plan.clock === 'none' ? toMs : packFromMs;
  for (let i = 0; i < records.n; i++) records.timeMs[i]! -= baseMs;
  node.seq++;
  const first = link.held.length === 0 ? undefined : lowestHeld(link, node.boot);
  const stamp = {
    boot: node.boot,
    seq: node.seq,
    ...(first !== undefined && { first }),
    ...(plan.clock === 'none'
      ? { upMs: Math.round((toMs - node.bootMs) * (1 + DRIFT)) }
      : { baseMs: baseMs + clockErrorMs(plan, packFromMs) }),
  };
  const pack: HeldPack = {
    boot: node.boot,
    seq: node.seq,
    fromMs: packFromMs,
    toMs,
    topic: `wells/${node.name}/readings`,
    payload: packBytes(node.name, stamp, node.prefixes, records),
  };
  node.readings += records.n;
  records.n = 0;
  sendPack(link, pack, toMs);
}

/**
 * A node stamps a pack's beginning by its clock and counts on from there: a jump shows from the
 * next pack on.
 */
function clockErrorMs({ clockJumps }: NodePlan, tMs: number): number {
  if (clockJumps === undefined) return 0;
  const jump = clockJumps.find(({ fromMs, untilMs }) => fromMs <= tMs && tMs < untilMs);
  return jump === undefined ? 0 : jump.byS * 1000;
}

/** Goes down where it must, and comes up again. */
function advanceDowntimes(node: SimulatedNode, tMs: number): void {
  for (;;) {
    const now = node.downtimes[node.nextDowntime];
    if (!now || tMs < now.fromMs) return;
    if (node.running) goDown(node, now);
    const untilMs = now.untilMs + START_UP_MS;
    const willMs = Math.min(now.fromMs + WILL_AFTER_MS, untilMs);
    if (!node.willSent && !now.lastGasp && tMs >= willMs) {
      node.willSent = true;
      if (isConnected(node.link, now.fromMs)) publishPresence(node, 'gone', willMs);
    }
    if (tMs < untilMs) return;
    node.nextDowntime++;
    comeUp(node, now, tMs);
  }
}

function goDown(node: SimulatedNode, now: Downtime): void {
  node.running = false;
  node.willSent = false;
  // What is not yet a pack is lost with the supply.
  const lostFromMs = node.records.n > 0 ? node.packFromMs : now.fromMs;
  node.records.n = 0;
  node.gaps.push({ fromMs: lostFromMs, untilMs: now.untilMs + START_UP_MS });
  if (now.lastGasp && isConnected(node.link, now.fromMs)) publishPresence(node, 'no-power', now.fromMs);
}

function comeUp(node: SimulatedNode, now: Downtime, tMs: number): void {
  node.running = true;
  node.boot = bootNumber(node.boot, node.nextDowntime);
  node.bootMs = now.untilMs;
  node.seq = 0;
  for (const sensor of node.sensors) {
    sensor.lastSentMs = Number.NEGATIVE_INFINITY;
    sensor.lastSent = Number.NaN;
  }
  if (isConnected(node.link, tMs)) announce(node, tMs);
}

/** After each connect: I am here, and who I am. */
function announce(node: SimulatedNode, atMs: number): void {
  const { plan, link } = node;
  publishPresence(node, 'here', atMs);
  const hello = encodeHello({
    node: node.name,
    contract: 1,
    firmware: 'ground-node 1.0.0',
    boot: node.boot,
    upMs: Math.max(0, Math.round((atMs - node.bootMs) * (1 + DRIFT))),
    clock: plan.clock,
    holdsS: HOLDS_S,
    fedFrom: plan.fedFrom ?? 'other-circuit',
    ...(link.held.length > 0 && { held: heldRanges(link.held) }),
    channels: node.sensors.map((sensor) => sensor.hello),
  });
  deliver(link, `wells/${node.name}/hello`, hello, atMs);
}

function heldRanges(held: readonly HeldPack[]): { boot: number; from: number; to: number }[] {
  const ranges: { boot: number; from: number; to: number }[] = [];
  for (const { boot, seq } of held) {
    const last = ranges.at(-1);
    if (last?.boot === boot) last.to = seq;
    else ranges.push({ boot, from: seq, to: seq });
  }
  return ranges;
}

function publishPresence(node: SimulatedNode, presence: Presence, atMs: number): void {
  deliver(node.link, `wells/${node.name}/presence`, encodePresence(presence), atMs);
}
