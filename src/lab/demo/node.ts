/**
 * One simulated node of the demo: a box at a simulated well that samples, packs and publishes as
 * the contract says, over a real connection. It holds nothing back: the demo's broker is in the
 * same program.
 */
import mqtt, { type MqttClient } from 'mqtt';
import type { HelloChannel, PackColumn } from '../../core/decode/messages.ts';
import { encodeHello } from '../../core/decode/hello.ts';
import { encodePackJson } from '../../core/decode/senml-json/encode-pack.ts';
import { newSimulatedWell, simulate, type SimulatedWell, type WellParams } from '../model/well.ts';

export interface DemoNode {
  name: string;
  client: MqttClient;
  well: SimulatedWell;
  boot: number;
  seq: number;
}

export async function connectNode(
  url: string,
  params: WellParams,
  fromMs: number,
  everyS: number,
): Promise<DemoNode> {
  const topic = (what: string): string => `wells/${params.name}/${what}`;
  const client = await mqtt.connectAsync(url, {
    protocolVersion: 4,
    clientId: `demo-${params.name}`,
    will: { topic: topic('presence'), payload: Buffer.from('"gone"'), qos: 1, retain: true },
  });
  const node = { name: params.name, client, well: newSimulatedWell(params, fromMs), boot: fromMs, seq: 0 };
  await client.publishAsync(topic('presence'), '"here"', { qos: 1, retain: true });
  await publishHello(node, everyS);
  return node;
}

/** Again whenever it changes how often it measures. */
export async function publishHello(node: DemoNode, everyS: number): Promise<void> {
  const channel = (n: string, u: string, more: Partial<HelloChannel>): HelloChannel => ({
    n,
    u,
    every: everyS,
    ...more,
  });
  const hello = encodeHello({
    node: node.name,
    contract: 1,
    firmware: 'alder-node 1.0.0',
    boot: node.boot,
    clock: 'utc',
    holdsS: 86_400,
    fedFrom: 'other-circuit',
    channels: [
      channel('current', 'A', { over: 1, is: 'mean', step: 0.01, max: 60 }),
      channel('pressure', 'Pa', { is: 'spot', step: 100, max: 1_034_000 }),
    ],
  });
  await node.client.publishAsync(`wells/${node.name}/hello`, Buffer.from(hello), { qos: 1, retain: true });
}

/** The bytes of the next pack, up to `untilMs`; undefined where no sample falls into it. */
export function nextPack(node: DemoNode, untilMs: number, everyS: number): Uint8Array | undefined {
  const times: number[] = [];
  const amps: number[] = [];
  const pascal: number[] = [];
  simulate(node.well, untilMs, everyS, (sample) => {
    times.push(sample.tMs);
    amps.push(sample.amps);
    pascal.push(Math.round(sample.kpa * 10) * 100);
  });
  if (times.length === 0) return undefined;
  node.seq++;
  const column = (channel: string, values: number[]): PackColumn => ({
    channel,
    times: Float64Array.from(times),
    values: Float64Array.from(values),
  });
  return encodePackJson({
    node: node.name,
    clock: 'utc',
    boot: node.boot,
    seq: node.seq,
    columns: [column('current', amps), column('pressure', pascal)],
  });
}

/** Resolves when the server has it on disk. */
export async function publishPack(node: DemoNode, pack: Uint8Array): Promise<void> {
  await node.client.publishAsync(`wells/${node.name}/readings`, Buffer.from(pack), { qos: 1, retain: false });
}
