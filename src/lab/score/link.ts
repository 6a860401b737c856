/**
 * What lies between a node and the server: a little delay, and outages, in which the node holds
 * what it would have sent. Afterwards it says hello and sends the oldest first, at the pace of a
 * slow link. Arrival is in order, as on one connection.
 */
import { seeded, type Random } from '../model/random.ts';

/** One MQTT message as it arrives at the server. */
export interface DeliveredMessage {
  tstMs: number;
  topic: string;
  payload: Uint8Array;
  retained: boolean;
}

export interface HeldPack {
  boot: number;
  seq: number;
  /** First and last reading by the true clock. */
  fromMs: number;
  toMs: number;
  topic: string;
  payload: Uint8Array;
}

export interface Outage {
  fromMs: number;
  untilMs: number;
}

export interface Link {
  outages: readonly Outage[];
  /** The next outage to end. */
  next: number;
  held: HeldPack[];
  /** The broker has published the node's Will for this outage. */
  willSent: boolean;
  lastMs: number;
  holdsMs: number;
  random: Random;
  onArrival: (message: DeliveredMessage) => void;
  /** What the node says when it is connected again. */
  onConnected: (atMs: number) => void;
  /** A pack was dropped because the node could hold no more. */
  onDropped: (pack: HeldPack) => void;
}

/** A broker waits for one and a half keep-alives, of a minute as is usual. */
export const WILL_AFTER_MS = 90_000;
/** From the network's return until the node is connected. */
const RECONNECT_MS = 4_000;
/** Twenty packs a second: a slow radio or a slow site. */
const SEND_INTERVAL_MS = 50;
const MIN_DELAY_MS = 60;
const DELAY_SPREAD_MS = 240;

export function newLink(
  setUp: Pick<Link, 'outages' | 'holdsMs' | 'onArrival' | 'onConnected' | 'onDropped'> & { seed: number },
): Link {
  const { seed, ...rest } = setUp;
  const outages = [...rest.outages].sort((a, b) => a.fromMs - b.fromMs);
  return {
    ...rest,
    outages,
    next: 0,
    held: [],
    willSent: false,
    lastMs: Number.NEGATIVE_INFINITY,
    random: seeded(seed),
  };
}

/** The outage that holds at this time. */
function outageAt(link: Link, tMs: number): Outage | undefined {
  const outage = link.outages[link.next];
  return outage && outage.fromMs <= tMs ? outage : undefined;
}

/**
 * Time goes on: an outage's Will is published, an outage ends and what was held goes out.
 * `running`: the node is running.
 */
export function advanceLink(link: Link, tMs: number, running: boolean, publishWill: () => void): void {
  const outage = outageAt(link, tMs);
  if (!outage) return;
  if (!link.willSent && running && tMs >= outage.fromMs + WILL_AFTER_MS) {
    link.willSent = true;
    publishWill();
  }
  if (tMs < outage.untilMs || !running) return;
  link.next++;
  link.willSent = false;
  link.onConnected(tMs + RECONNECT_MS);
  for (const pack of link.held) deliver(link, pack.topic, pack.payload, tMs + RECONNECT_MS);
  link.held = [];
}

/** A pack is ready to be sent. */
export function sendPack(link: Link, pack: HeldPack, readyMs: number): void {
  if (!outageAt(link, readyMs)) {
    deliver(link, pack.topic, pack.payload, readyMs);
    return;
  }
  link.held.push(pack);
  while (pack.toMs - link.held[0]!.fromMs > link.holdsMs) link.onDropped(link.held.shift()!);
}

/** A message of the broker's own, or of a node that is connected. */
export function deliver(
  link: Link,
  topic: string,
  payload: Uint8Array,
  readyMs: number,
  retained = false,
): void {
  const delayMs = MIN_DELAY_MS + Math.round(DELAY_SPREAD_MS * link.random.next());
  const tstMs = Math.max(readyMs + delayMs, link.lastMs + SEND_INTERVAL_MS);
  link.lastMs = tstMs;
  link.onArrival({ tstMs, topic, payload, retained });
}

/** Whether what is sent now would arrive. */
export function isConnected(link: Link, tMs: number): boolean {
  return outageAt(link, tMs) === undefined;
}

/** The lowest seq of this boot that waits to be sent. */
export function lowestHeld(link: Link, boot: number): number | undefined {
  return link.held.find((pack) => pack.boot === boot)?.seq;
}
