/**
 * The load, in a process of its own: many connections, each speaking for some nodes, QoS 1 with a
 * window. Frames are made first; then it says `ready`, and on `go` sends all of them and says how
 * long it took until the last was acknowledged.
 */
import { connect, type Socket } from 'node:net';
import { HOUR_S } from '../../../shared/units/duration.ts';
import { ANSWER_BYTES, connectFrame, publishFrame } from './frames.ts';
import { benchPack, makeTrack, PACK_S } from './packs.ts';

export interface LoadTask {
  port: number;
  connections: number;
  nodesEach: number;
  packsEach: number;
  /** Of these so many first ones warm both sides up and are not timed. */
  warmUpEach: number;
  /** Messages a second in all; 0: as fast as they are acknowledged. */
  perSecond: number;
  /** Every so many nodes' taps run dry, which raises an alarm; 0: none. */
  dryNodeEvery: number;
}

export type LoadMessage =
  { type: 'ready' } | { type: 'warm' } | { type: 'done'; ms: number; messages: number };

const WINDOW = 20;
const SEND_INTERVAL_MS = 5;
/** The taps run dry only after pressure was there: so much of each node's time first. */
const DRY_AFTER_PACKS = 8;

interface LoadConnection {
  socket: Socket;
  frames: Buffer[];
  sent: number;
  acked: number;
  /** Bytes of answers so far. */
  answered: number;
}

/** Frames of one connection: its nodes take turns, pack by pack, as they would in life. */
function framesOf(order: LoadTask, connection: number, track: ReturnType<typeof makeTrack>): Buffer[] {
  const fromMs = Math.floor(Date.now() / 1000) * 1000 - order.packsEach * PACK_S * 1000;
  const dried = { ...track, pascal: track.pascal.map(() => 15_000) };
  const frames: Buffer[] = [];
  for (let seq = 1; seq <= order.packsEach; seq++) {
    for (let i = 0; i < order.nodesEach; i++) {
      const index = connection * order.nodesEach + i;
      const node = { name: `bench-${index}`, offset: (index * 977) % track.amps.length };
      const dry = order.dryNodeEvery > 0 && index % order.dryNodeEvery === 0;
      const pack = benchPack(dry && seq > DRY_AFTER_PACKS ? dried : track, node, seq, fromMs);
      frames.push(publishFrame(`wells/${node.name}/readings`, pack, ((frames.length + 1) % 65_000) + 1));
    }
  }
  return frames;
}

async function open(port: number, connection: number): Promise<Socket> {
  const socket = connect(port, '127.0.0.1');
  socket.setNoDelay(true);
  await new Promise<void>((done, fail) => {
    socket.once('error', fail);
    socket.once('connect', () => socket.write(connectFrame(`load-${connection}`)));
    socket.once('data', () => done());
  });
  return socket;
}

function fillWindow(pipe: LoadConnection, until: number, maySend: () => boolean): void {
  while (pipe.sent < until && pipe.sent - pipe.acked < WINDOW && maySend()) {
    pipe.socket.write(pipe.frames[pipe.sent++]!);
  }
}

/**
 * Sends each pipe's frames up to `until` of them; resolves with the ms it took when all were
 * acknowledged.
 */
function send(pipes: LoadConnection[], order: LoadTask, until: number): Promise<number> {
  const began = performance.now();
  let total = 0;
  const maySend = (): boolean => {
    if (order.perSecond > 0 && total >= ((performance.now() - began) / 1000) * order.perSecond) return false;
    total++;
    return true;
  };
  return new Promise((resolve) => {
    let open = pipes.length;
    const timer =
      order.perSecond > 0 ? setInterval(() => pipes.forEach(sendMore), SEND_INTERVAL_MS) : undefined;
    const sendMore = (pipe: LoadConnection): void =>
      fillWindow(pipe, Math.min(until, pipe.frames.length), maySend);
    for (const pipe of pipes) {
      const wanted = Math.min(until, pipe.frames.length);
      if (wanted <= pipe.acked) {
        open--;
        continue;
      }
      pipe.socket.on('data', (chunk) => {
        pipe.answered += chunk.length;
        pipe.acked = Math.floor(pipe.answered / ANSWER_BYTES);
        sendMore(pipe);
        if (pipe.acked < wanted) return;
        pipe.socket.removeAllListeners('data');
        if (--open > 0) return;
        clearInterval(timer);
        resolve(performance.now() - began);
      });
      sendMore(pipe);
    }
    if (open === 0) {
      clearInterval(timer);
      resolve(0);
    }
  });
}

export async function runLoad(
  order: LoadTask,
  report: (message: LoadMessage) => void,
  started: Promise<unknown>,
  timed: Promise<unknown>,
): Promise<void> {
  const track = makeTrack(6 * HOUR_S, 5);
  const pipes: LoadConnection[] = [];
  for (let connection = 0; connection < order.connections; connection++) {
    pipes.push({
      socket: await open(order.port, connection),
      frames: framesOf(order, connection, track),
      sent: 0,
      acked: 0,
      answered: 0,
    });
  }
  report({ type: 'ready' });
  await started;
  const warm = order.warmUpEach * order.nodesEach;
  await send(pipes, order, warm);
  report({ type: 'warm' });
  await timed;
  const ms = await send(pipes, order, Number.POSITIVE_INFINITY);
  report({ type: 'done', ms, messages: pipes.reduce((sum, pipe) => sum + pipe.frames.length - warm, 0) });
  for (const pipe of pipes) pipe.socket.destroy();
}
