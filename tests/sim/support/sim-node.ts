/**
 * A node that behaves as the contract says (section 4), over a real connection: it holds every pack
 * until `kept` has passed it, sends oldest first, and after each connect says hello and sends again
 * what is not kept.
 */
import mqtt, { type MqttClient } from 'mqtt';
import { ackShape } from '../../../src/core/decode/shapes.ts';

export interface SimNode {
  name: string;
  /** Of one boot, seq 1 first. */
  packs: Uint8Array[];
  /** Everything up to this seq is kept. */
  ackedSeq: number;
  /** The next seq to send. */
  nextSeq: number;
  connected: boolean;
  /**
   * Publications of this connection that the broker has not acknowledged, and the highest seq of
   * those it has.
   */
  unanswered: number;
  answeredSeq: number;
  /** Counts connections: answers to an earlier one mean nothing. */
  connection: number;
  client: MqttClient;
  /** Packs sent, those sent again included. */
  sent: number;
}

export const BOOT = 1234;
const RECONNECT_MS = 100;

/**
 * `onChange` is called whenever the node might go on: connected, answered, or told how far its
 * packs are safe.
 */
export function startNode(
  name: string,
  packs: Uint8Array[],
  hello: Uint8Array,
  port: number,
  onChange: () => void,
): SimNode {
  const client = mqtt.connect({
    host: '127.0.0.1',
    port,
    protocolVersion: 4,
    clientId: name,
    reconnectPeriod: RECONNECT_MS,
    will: { topic: `wells/${name}/presence`, payload: Buffer.from('"gone"'), qos: 1, retain: true },
  });
  const node: SimNode = {
    name,
    packs,
    ackedSeq: 0,
    nextSeq: 1,
    connected: false,
    unanswered: 0,
    answeredSeq: 0,
    connection: 0,
    client,
    sent: 0,
  };
  client.on('connect', () => {
    node.connected = true;
    // What a broken connection took with it is sent again by our own count, not by the library's.
    node.nextSeq = node.ackedSeq + 1;
    node.unanswered = 0;
    node.connection++;
    client.subscribe(`wells/${name}/kept`, { qos: 1 });
    publish(node, 'hello', hello, onChange);
    onChange();
  });
  client.on('close', () => (node.connected = false));
  // A killed server refuses connections until it is back.
  client.on('error', ignore);
  client.on('message', (_topic, payload) => {
    const ack = ackShape.parse(JSON.parse(payload.toString()));
    if ('wait' in ack || ack.boot !== BOOT || ack.seq <= node.ackedSeq) return;
    node.ackedSeq = ack.seq;
    if (node.nextSeq <= ack.seq) node.nextSeq = ack.seq + 1;
    onChange();
  });
  return node;
}

function ignore(): void {
  // Told by `kept` alone.
}

function publish(node: SimNode, what: 'hello' | 'readings', payload: Uint8Array, then: () => void): void {
  const { connection } = node;
  node.unanswered++;
  node.client.publish(
    `wells/${node.name}/${what}`,
    Buffer.from(payload),
    { qos: 1, retain: what === 'hello' },
    (error) => {
      if (error || connection !== node.connection) return;
      node.unanswered--;
      then();
    },
  );
}

/** Sends packs up to and including `toSeq`. */
export function sendTo(node: SimNode, toSeq: number, onChange: () => void): void {
  while (node.connected && node.nextSeq <= Math.min(toSeq, node.packs.length)) {
    const seq = node.nextSeq++;
    node.sent++;
    publish(node, 'readings', node.packs[seq - 1]!, () => {
      node.answeredSeq = Math.max(node.answeredSeq, seq);
      onChange();
    });
  }
}

export function isDone(node: SimNode): boolean {
  return node.ackedSeq >= node.packs.length;
}
