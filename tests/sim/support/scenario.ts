/**
 * A stretch of a small farm's time, made from a seed: one well whose current comes from one node
 * and whose pressure comes from another, and one ordinary node. What was measured and done is one
 * thing, how it travelled another: the same readings can be packed, ordered and doubled in many
 * ways.
 */
import { seeded, type Random } from '../../../src/lab/model/random.ts';
import {
  newSimulatedWell,
  simulate,
  type ConditionSchedule,
  type WellParams,
} from '../../../src/lab/model/well.ts';
import { HOUSEHOLD, STOCK } from '../../../src/lab/model/demand.ts';
import { encodePackJson } from '../../../src/core/decode/senml-json/encode-pack.ts';
import type { PackColumn } from '../../../src/core/decode/messages.ts';

export const PANEL = 'panel-a';
export const PUMP_HOUSE = 'pump-house';
const ORCHARD = 'orchard';

/** What happens, all from a few numbers that a failing case prints. */
export interface Plan {
  seed: number;
  hours: number;
  /** Seconds between readings. */
  everyS: number;
  fault: 'none' | 'stuck' | 'air-lost';
  /** The pressure node's packs of these hours come only at the end of them. */
  backlog?: { fromH: number; untilH: number };
  /** Acts, each at a share of the time. */
  acts: readonly { fraction: number; act: ActName }[];
}

export type ActName =
  'card' | 'other-card' | 'visit' | 'pinned' | 'acknowledged' | 'expected' | 'calibrated' | 'shelved';

/** How the readings travel. */
export interface Delivery {
  seed: number;
  packS: number;
  /** Packs that come again, as a share of all. */
  doubled: number;
  /** Up to so long a pack may be late, s; 0: in order. */
  lateS: number;
  /**
   * The orchard node's clock: true, absent, or two hours behind in the middle third. The last two
   * are placed by arrival, so that another way of travelling may give other times.
   */
  clock: 'utc' | 'none' | 'steps';
}

interface SentMessage {
  atMs: number;
  topic: string;
  payload: string;
}

export interface PlannedAct {
  atMs: number;
  act: Record<string, unknown>;
}

export interface Scenario {
  startMs: number;
  endMs: number;
  items: (SentMessage | PlannedAct)[];
}

/** Two days over the start of summer time in Denver. */
const START_MS = Date.UTC(2026, 2, 7, 18, 3, 20);
const HOUR_MS = 3_600_000;
/** When the nodes started. */
const BOOTED_MS = START_MS - 60_000;
/**
 * After the last arrival, so long that nobody is waited for any more, and not so long that silence
 * is news.
 */
const AFTER_MS = 300_000;
/**
 * Everything has come so long after it was measured: 5,000 s late, a pack of 300 s, and 600 s till
 * it is doubled.
 */
const MAX_DELAY_MS = 6_000_000;
/** A node that holds its packs back still says that it is there. */
const PRESENCE_INTERVAL_MS = 240_000;

/** A sensor that is too small: some runs stop just under it, some reach it. */
const SENSOR_MAX_PA = 414_000;

export interface Column {
  node: string;
  channel: string;
  times: number[];
  values: number[];
}

const PSI_KPA = 6.894757293168;

function params(name: string, seed: number, schedule: ConditionSchedule | undefined): WellParams {
  return {
    name,
    seed,
    utcOffsetH: -7,
    atmosphereKpa: 84,
    pump: {
      shutOffHeadM: 92,
      runOutLPerS: 0.92,
      staticLevelM: 22,
      yieldLPerSPerM: 0.16,
      frictionM: 6,
      idleFlowAmps: 5.2,
      fullFlowAmps: 8.3,
    },
    tank: { volumeL: 120, prechargeKpa: 38 * PSI_KPA },
    switch: { cutInKpa: 40 * PSI_KPA, cutOutKpa: 60 * PSI_KPA },
    fixtures: name === ORCHARD ? STOCK : HOUSEHOLD,
    ...(schedule && { schedule }),
  };
}

function scheduleOf(plan: Plan): ConditionSchedule | undefined {
  const fromMs = START_MS + plan.hours * HOUR_MS * 0.4;
  const untilMs = START_MS + plan.hours * HOUR_MS * 0.8;
  if (plan.fault === 'none') return undefined;
  return (tMs) => {
    if (tMs < fromMs || tMs >= untilMs) return {};
    return plan.fault === 'stuck' ? { stuck: true } : { airLost: 0.93 };
  };
}

/** What was measured. */
export function measure(plan: Plan): Column[] {
  const untilMs = START_MS + plan.hours * HOUR_MS;
  const columns: Column[] = [];
  const column = (node: string, channel: string): Column => {
    const made = { node, channel, times: [], values: [] };
    columns.push(made);
    return made;
  };
  const mill = { amps: column(PANEL, 'current'), kpa: column(PUMP_HOUSE, 'pressure') };
  const orchard = { amps: column(ORCHARD, 'current'), kpa: column(ORCHARD, 'pressure') };
  const well = newSimulatedWell(params('mill', plan.seed, scheduleOf(plan)), START_MS);
  simulate(well, untilMs, plan.everyS, (sample) => addSample(mill, sample));
  const other = newSimulatedWell(params(ORCHARD, plan.seed + 1, undefined), START_MS);
  simulate(other, untilMs, plan.everyS, (sample) => addSample(orchard, sample));
  return columns;
}

function addSample(
  to: { amps: Column; kpa: Column },
  sample: { tMs: number; amps: number; kpa: number },
): void {
  to.amps.times.push(sample.tMs);
  to.amps.values.push(sample.amps);
  to.kpa.times.push(sample.tMs);
  to.kpa.values.push(Math.round(sample.kpa * 1000));
}

const MILL_CARD = {
  well: 'mill',
  site: 'home-farm',
  timeZone: 'America/Denver',
  altitude: '5200 ft',
  use: 'house',
  control: 'pressure-switch',
  pump: { kind: 'submersible', motor: '1 hp', volts: '230 V', phase: 1, maxAmps: '9.8 A' },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { kind: 'captive-air', volume: '32 gal', precharge: '38 psi' },
  reads: { current: `${PANEL}:current`, pressure: `${PUMP_HOUSE}:pressure` },
};

/** What was done, in the order of time. */
export function actsOf(plan: Plan): PlannedAct[] {
  const at = (fraction: number): number => Math.round(START_MS + fraction * plan.hours * HOUR_MS);
  const done: PlannedAct[] = [{ atMs: START_MS - 1000, act: { kind: 'card-changed', card: MILL_CARD } }];
  for (const { fraction, act } of plan.acts) {
    const atMs = at(fraction);
    const well = 'mill';
    const until = new Date(atMs + 2 * HOUR_MS).toISOString();
    switch (act) {
      case 'card':
        done.push({
          atMs,
          act: {
            kind: 'card-changed',
            card: { ...MILL_CARD, relief: '75 psi', pump: { ...MILL_CARD.pump, maxAmps: '9.1 A' } },
          },
        });
        break;
      case 'other-card':
        done.push({
          atMs,
          act: {
            kind: 'card-changed',
            card: { well: ORCHARD, timeZone: 'America/Denver', use: 'stock', control: 'pressure-switch' },
          },
        });
        break;
      case 'visit':
        done.push({ atMs, act: { kind: 'visit-opened', well } });
        done.push({
          atMs: atMs + 1_200_000,
          act: { kind: 'visit-closed', well, newBaseline: plan.seed % 2 === 0 },
        });
        break;
      case 'pinned':
        done.push({ atMs, act: { kind: 'pinned', well, pump: 'p1', amps: '7.1 A', cutIn: '40 psi' } });
        break;
      case 'acknowledged':
        for (const alarm of ['long-run', 'short-cycling', 'over-pressure'])
          done.push({ atMs, act: { kind: 'acknowledged', well, pump: 'p1', alarm } });
        break;
      case 'shelved':
        for (const alarm of ['long-run', 'short-cycling'])
          done.push({ atMs, act: { kind: 'shelved', well, pump: 'p1', alarm, until } });
        break;
      case 'expected':
        done.push({ atMs, act: { kind: 'expected', well, text: 'guests for the weekend', until } });
        break;
      case 'calibrated':
        done.push({
          atMs,
          act: {
            kind: 'calibrated',
            node: PUMP_HOUSE,
            channel: 'pressure',
            points: [
              [0, 2000],
              [400_000, 404_000],
            ],
          },
        });
        break;
      default:
        act satisfies never;
    }
  }
  return done.sort((a, b) => a.atMs - b.atMs);
}

/** Packs of one node, oldest first, each with the time of its last reading. */
function packsOf(
  node: string,
  columns: readonly Column[],
  packS: number,
  clock: Delivery['clock'],
): { lastMs: number; payload: string }[] {
  const mine = columns.filter((column) => column.node === node);
  const untilMs = Math.max(...mine.map((column) => column.times.at(-1) ?? 0));
  const packs: { lastMs: number; payload: string }[] = [];
  const thirdMs = START_MS + (untilMs - START_MS) / 3;
  const at = mine.map(() => 0);
  for (let fromMs = START_MS; fromMs <= untilMs; fromMs += packS * 1000) {
    const parts = mine.map((column, i): PackColumn => {
      const from = at[i]!;
      while (at[i]! < column.times.length && column.times[at[i]!]! < fromMs + packS * 1000) at[i]!++;
      return {
        channel: column.channel,
        times: Float64Array.from(column.times.slice(from, at[i])),
        values: Float64Array.from(column.values.slice(from, at[i])),
      };
    });
    const lastMs = Math.max(...parts.map((part) => part.times.at(-1) ?? 0));
    if (lastMs === 0) continue;
    const stamp = { node, boot: 17, seq: packs.length + 1 };
    const wrong = clock === 'steps' && lastMs > thirdMs && lastMs < 2 * thirdMs - START_MS;
    const payload = encodePackJson(
      clock === 'none'
        ? { ...stamp, clock: 'up', upMs: lastMs - BOOTED_MS, columns: shiftTimes(parts, -lastMs) }
        : { ...stamp, clock: 'utc', columns: wrong ? shiftTimes(parts, -2 * HOUR_MS) : parts },
    );
    packs.push({ lastMs, payload: new TextDecoder().decode(payload) });
  }
  return packs;
}

function shiftTimes(parts: readonly PackColumn[], byMs: number): PackColumn[] {
  return parts.map((part) => ({ ...part, times: part.times.map((tMs) => tMs + byMs) }));
}

function helloOf(node: string, plan: Plan, columns: readonly Column[]): Record<string, unknown> {
  const channels = columns
    .filter((column) => column.node === node)
    .map(({ channel }) =>
      channel === 'current'
        ? { n: channel, u: 'A', every: plan.everyS, max: 60 }
        : { n: channel, u: 'Pa', every: plan.everyS, max: SENSOR_MAX_PA },
    );
  return { contract: 1, boot: 17, up: (START_MS - BOOTED_MS) / 1000, clock: 'utc', holds: 172_800, channels };
}

function arrivals(
  node: string,
  plan: Plan,
  delivery: Delivery,
  columns: readonly Column[],
  random: Random,
): SentMessage[] {
  const sent: SentMessage[] = [
    {
      atMs: START_MS - 500,
      topic: `wells/${node}/hello`,
      payload: JSON.stringify(helloOf(node, plan, columns)),
    },
  ];
  const held = node === PUMP_HOUSE && plan.backlog;
  const fromMs = held ? START_MS + held.fromH * HOUR_MS : 0;
  const untilMs = held ? START_MS + held.untilH * HOUR_MS : 0;
  let nth = 0;
  const clock = node === ORCHARD ? delivery.clock : 'utc';
  for (const { lastMs, payload } of packsOf(node, columns, delivery.packS, clock)) {
    const prompt = lastMs + 200 + Math.floor(random.next() * 1500);
    const late =
      delivery.lateS > 0 && random.next() < 0.1 ? Math.floor(random.next() * delivery.lateS * 1000) : 0;
    const waits = lastMs >= fromMs && lastMs < untilMs;
    const atMs = waits ? Math.max(untilMs + nth++ * 20, prompt) : prompt + late;
    const topic = `wells/${node}/readings`;
    sent.push({ atMs, topic, payload });
    if (random.next() < delivery.doubled)
      sent.push({ atMs: atMs + Math.floor(random.next() * 600_000), topic, payload });
  }
  for (let atMs = fromMs; atMs < untilMs; atMs += PRESENCE_INTERVAL_MS) {
    sent.push({ atMs: Math.round(atMs), topic: `wells/${node}/presence`, payload: '"here"' });
  }
  return sent;
}

/**
 * Everything that comes, in order of arrival. What was measured and done depends on the plan alone.
 */
export function deliver(plan: Plan, delivery: Delivery): Scenario {
  const random = seeded(delivery.seed);
  const columns = measure(plan);
  const items = [
    ...actsOf(plan),
    ...[PANEL, PUMP_HOUSE, ORCHARD].flatMap((node) => arrivals(node, plan, delivery, columns, random)),
  ].sort((a, b) => a.atMs - b.atMs);
  const measured = START_MS + plan.hours * HOUR_MS;
  // The same end for every way of travelling, so that all have seen the same minutes.
  const endMs = measured + MAX_DELAY_MS + AFTER_MS;
  return { startMs: START_MS - 2000, endMs, items };
}

/** The journey as a recording, with a last line that makes time go on to its end. */
export function recordingOf(journey: Scenario): string {
  const lines = journey.items.map((item) => {
    const at = new Date(item.atMs).toISOString();
    if ('act' in item) return JSON.stringify({ at, act: item.act });
    return `{"at":"${at}","topic":"${item.topic}","payload":${item.payload}}`;
  });
  lines.push(JSON.stringify({ at: new Date(journey.endMs).toISOString(), act: { kind: 'tick' } }));
  return `${lines.join('\n')}\n`;
}
