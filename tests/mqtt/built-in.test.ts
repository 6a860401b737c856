import { createConnection, createServer } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import {
  MAX_PACKET_BYTES,
  openBuiltInBroker,
  type BuiltInBroker,
  type BuiltInOptions,
} from '../../src/mqtt/built-in.ts';
import { listen } from '../../src/mqtt/listen.ts';
import { makeCredential, type NodeCredential } from '../../src/mqtt/credentials.ts';
import { untilClosed, connectNode, messageCollector, nextMessage, text } from './support.ts';

let opened: BuiltInBroker[] = [];
afterEach(async () => {
  await Promise.all(opened.map((broker) => broker.close()));
  opened = [];
});

interface Bench {
  broker: BuiltInBroker;
  url: string;
  box: ReturnType<typeof messageCollector>;
  troubles: string[];
}

async function open(more: Partial<BuiltInOptions> = {}): Promise<Bench> {
  const box = messageCollector();
  const troubles: string[] = [];
  const broker = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    credential: () => Promise.resolve(undefined),
    allowLocal: false,
    onMessage: box.onMessage,
    onProblem: (sentence) => troubles.push(sentence),
    ...more,
  });
  opened.push(broker);
  return { broker, url: `mqtt://127.0.0.1:${broker.port}`, box, troubles };
}

async function withNodes(speaksFor: Record<string, string[]>): Promise<{
  credential: (user: string) => Promise<NodeCredential | undefined>;
  password: (node: string) => string;
}> {
  const made = new Map<string, { row: NodeCredential; password: string }>();
  for (const [node, names] of Object.entries(speaksFor)) {
    made.set(node, await makeCredential(node, { createdMs: 0, speaksFor: names }));
  }
  return {
    credential: (user) => Promise.resolve(made.get(user)?.row),
    password: (node) => made.get(node)!.password,
  };
}

describe('openBuiltInBroker: who may come in', () => {
  test('a node with its own name and password comes in, and its name goes with its messages', async () => {
    const { credential, password } = await withNodes({ 'barn-north': [] });
    const { url, box, broker } = await open({ credential });
    const node = await connectNode(url, { username: 'barn-north', password: password('barn-north') });
    await node.publishAsync('wells/barn-north/readings', '[{"n":"current"}]', { qos: 1 });
    const [heard] = await box.until(1);
    expect({ ...heard, payload: text(heard!.payload) }).toEqual({
      topic: 'wells/barn-north/readings',
      payload: '[{"n":"current"}]',
      how: { retained: false, qos: 1 },
      user: 'barn-north',
    });
    expect(broker.connectedNodes()).toEqual(['barn-north']);
    await node.endAsync();
  });

  // Return codes: MQTT 3.1.1, table 3.1 (4 bad user name or password, 5 not authorized, 1
  // unacceptable protocol version).
  test.each([
    ['no credential', {}, 'Not authorized', /gave no user name/],
    [
      'a name without credential',
      { username: 'nobody', password: 'x' },
      'Bad username or password',
      /no such node/,
    ],
    [
      'a wrong password',
      { username: 'barn-north', password: 'AAAA-AAAA' },
      'Bad username or password',
      /password is wrong/,
    ],
    [
      'MQTT 5',
      { username: 'barn-north', protocolVersion: 5 as const },
      'Unacceptable protocol',
      /protocol version/,
    ],
  ])('%s is refused and the reason is told', async (_name, options, refusal, trouble) => {
    const { credential } = await withNodes({ 'barn-north': [] });
    const { url, troubles } = await open({ credential });
    await expect(connectNode(url, options)).rejects.toThrow(refusal);
    await expect.poll(() => troubles.join('\n')).toMatch(trouble);
    expect(troubles.join('\n')).toContain(' at 127.0.0.1: ');
    expect(troubles.join('\n')).not.toContain(' at ?');
  });

  test('the name that a stranger gives stays on one line and within its quotes, and its address goes with it', async () => {
    const reported: [sentence: string, from: string][] = [];
    const { url } = await open({ onProblem: (...trouble) => reported.push(trouble) });
    const username = 'a"\nTold Anna: all is well';
    await expect(connectNode(url, { username, password: 'x' })).rejects.toThrow('Bad username');
    await expect
      .poll(() => reported[0])
      .toEqual([
        'Dropped "a\\"\\nTold Anna: all is well" at 127.0.0.1: no such node has a credential.',
        '127.0.0.1',
      ]);
  });

  test('allowLocal: a local client without credential may be any node; one with a credential must still know its password', async () => {
    const { credential } = await withNodes({ 'barn-north': [] });
    const { url, box } = await open({ credential, allowLocal: true });
    const node = await connectNode(url);
    await node.publishAsync('wells/pasture/hello', '{}', { qos: 1, retain: true });
    expect((await box.until(1))[0]).toMatchObject({
      topic: 'wells/pasture/hello',
      how: { retained: false },
      user: undefined,
    });
    await node.endAsync();
    await expect(connectNode(url, { username: 'barn-north', password: 'guess' })).rejects.toThrow(
      'Bad username',
    );
  });

  test('a client identifier taken by another user does not push that user off', async () => {
    const { credential, password } = await withNodes({ a: [], b: [] });
    const { url, broker } = await open({ credential });
    const a = await connectNode(url, { clientId: 'same', username: 'a', password: password('a') });
    const b = await connectNode(url, { clientId: 'same', username: 'b', password: password('b') });
    await a.publishAsync('wells/a/presence', '"here"', { qos: 1 });
    expect(broker.connectedNodes()).toEqual(['a', 'b']);
    await Promise.all([a.endAsync(), b.endAsync()]);
  });
});

describe('openBuiltInBroker: what a node may do', () => {
  test.each([
    ['another node’s readings', 'wells/other/readings'],
    ['its own kept', 'wells/gate/kept'],
    ['its own ask', 'wells/gate/ask'],
    ['a topic outside the root', 'elsewhere/gate/readings'],
    ['a longer topic', 'wells/gate/readings/more'],
    ['the root alone', 'wells'],
    ['a system topic', '$SYS/broker'],
  ])('publishing to %s ends the connection and is not heard', async (_name, topic) => {
    const { credential, password } = await withNodes({ gate: ['shed'] });
    const { url, box, troubles } = await open({ credential });
    const node = await connectNode(url, { username: 'gate', password: password('gate') });
    node.publish(topic, 'x', { qos: 0 });
    await untilClosed(node);
    expect(box.received).toEqual([]);
    expect(troubles.join()).toContain('may not publish to');
  });

  test('a gateway publishes for each name it speaks for', async () => {
    const { credential, password } = await withNodes({ gate: ['shed', 'pasture'] });
    const { url, box } = await open({ credential });
    const gate = await connectNode(url, { username: 'gate', password: password('gate') });
    for (const name of ['gate', 'shed', 'pasture'])
      await gate.publishAsync(`wells/${name}/readings`, name, { qos: 1 });
    expect((await box.until(3)).map(({ topic, user }) => [topic, user])).toEqual([
      ['wells/gate/readings', 'gate'],
      ['wells/shed/readings', 'gate'],
      ['wells/pasture/readings', 'gate'],
    ]);
    await gate.endAsync();
  });

  test('a node listens to kept and ask of its names and to nothing else', async () => {
    const { credential, password } = await withNodes({ gate: ['shed'] });
    const { url } = await open({ credential });
    const node = await connectNode(url, { username: 'gate', password: password('gate') });
    const ask = async (filter: string): Promise<boolean> =>
      node.subscribeAsync(filter, { qos: 1 }).then(
        (granted) => granted.every(({ qos }) => qos !== 128),
        () => false,
      );
    const filters = [
      'wells/gate/kept',
      'wells/gate/ask',
      'wells/shed/kept',
      'wells/other/kept',
      'wells/+/kept',
      'wells/gate/readings',
      '#',
      '$SYS/#',
      'wells/gate/+',
    ];
    const may = [];
    for (const filter of filters) may.push([filter, await ask(filter)]);
    expect(may.filter(([, yes]) => yes).map(([filter]) => filter)).toEqual([
      'wells/gate/kept',
      'wells/gate/ask',
      'wells/shed/kept',
    ]);
    await node.endAsync();
  });

  test('a siren with its own credential hears the topic that notices go to', async () => {
    const { credential, password } = await withNodes({ siren: [] });
    const { url, broker } = await open({ credential, noticeTopics: ['farm/siren'] });
    const siren = await connectNode(url, { username: 'siren', password: password('siren') });
    await siren.subscribeAsync('farm/siren', { qos: 1 });
    await expect(siren.subscribeAsync('farm/+', { qos: 1 })).rejects.toThrow();
    const next = nextMessage(siren);
    await broker.publish('farm/siren', '{"what":"raised"}', { qos: 1, retain: false });
    expect((await next).payload).toBe('{"what":"raised"}');
    await siren.endAsync();
  });

  test('a Will on another name is refused at connect', async () => {
    const { credential, password } = await withNodes({ gate: [] });
    const { url } = await open({ credential });
    const will = {
      topic: 'wells/other/presence',
      payload: Buffer.from('"gone"'),
      qos: 1 as const,
      retain: true,
    };
    await expect(connectNode(url, { username: 'gate', password: password('gate'), will })).rejects.toThrow(
      'Not authorized',
    );
  });

  test('a credential that listens hears everything under the root and publishes nothing', async () => {
    const { row, password } = await makeCredential('recorder', { createdMs: 0 });
    const { url, box } = await open({
      credential: () => Promise.resolve({ secret: row.secret, speaksFor: [], listenOnly: true }),
      allowLocal: true,
    });
    const recorder = await connectNode(url, { username: 'recorder', password });
    await recorder.subscribeAsync('wells/#', { qos: 1 });
    const next = nextMessage(recorder);
    const node = await connectNode(url);
    await node.publishAsync('wells/shed/readings', 'r', { qos: 1 });
    expect(await next).toMatchObject({ topic: 'wells/shed/readings', payload: 'r' });
    await box.until(1);
    recorder.publish('wells/recorder/readings', 'x');
    await untilClosed(recorder);
    expect(box.received).toHaveLength(1);
    await node.endAsync();
  });
});

describe('openBuiltInBroker: messages', () => {
  test('a retained message on readings comes as retained, is not held, and the node stays', async () => {
    const { url, box } = await open({ allowLocal: true });
    const node = await connectNode(url);
    await node.publishAsync('wells/shed/readings', 'r', { qos: 1, retain: true });
    expect((await box.until(1))[0]!.how.retained).toBe(true);
    const late = await connectNode(url);
    await late.subscribeAsync(['wells/shed/readings', 'wells/shed/kept'], { qos: 1 });
    const next = nextMessage(late);
    await node.publishAsync('wells/shed/readings', 'second', { qos: 1 });
    expect(await next).toMatchObject({ payload: 'second', retain: false });
    await Promise.all([node.endAsync(), late.endAsync()]);
  });

  test('after-commit: the node is acknowledged only after the message was kept', async () => {
    const { url, box } = await open({ allowLocal: true, acknowledge: 'after-commit' });
    const node = await connectNode(url);
    let acknowledged = false;
    const sent = node.publishAsync('wells/shed/readings', 'r', { qos: 1 }).then(() => (acknowledged = true));
    const [message] = await box.until(1);
    // A round trip through the broker on another connection: an acknowledgement sent at once would
    // have come by now.
    const other = await connectNode(url);
    await other.subscribeAsync('wells/shed/kept', { qos: 1 });
    expect(acknowledged).toBe(false);
    message!.how.acknowledge!();
    message!.how.acknowledge!();
    await sent;
    expect(acknowledged).toBe(true);
    await Promise.all([node.endAsync(), other.endAsync()]);
  });

  test('hello, presence and kept come back after a restart from the retained, as retained', async () => {
    const stored = new Map<string, { topic: string; payload: Uint8Array; qos: 0 | 1 | 2 }>();
    const retained: NonNullable<BuiltInOptions['retained']> = {
      load: () => Promise.resolve(stored.values()),
      save: (topic, payload, qos) =>
        void (payload === null ? stored.delete(topic) : stored.set(topic, { topic, payload, qos })),
    };
    const first = await open({ allowLocal: true, retained });
    const node = await connectNode(first.url);
    await node.publishAsync('wells/shed/hello', '{"contract":1}', { qos: 1, retain: true });
    await node.publishAsync('wells/old/hello', '{}', { qos: 1, retain: true });
    await node.publishAsync('wells/old/hello', '', { qos: 1, retain: true });
    await first.broker.publish('wells/shed/kept', '{"boot":1,"seq":4}', { qos: 1, retain: true });
    await node.endAsync();
    await first.broker.close();

    const second = await open({ allowLocal: true, retained });
    expect(second.box.received.map(({ topic, how }) => [topic, how.retained])).toEqual([
      ['wells/shed/hello', true],
    ]);
    const back = await connectNode(second.url);
    const next = nextMessage(back);
    await back.subscribeAsync('wells/shed/kept', { qos: 1 });
    expect(await next).toEqual({ topic: 'wells/shed/kept', payload: '{"boot":1,"seq":4}', retain: true });
    await back.endAsync();
  });

  test('closing sets off no Will: our own absence is not news', async () => {
    const { url, box, broker } = await open({ allowLocal: true });
    const will = {
      topic: 'wells/shed/presence',
      payload: Buffer.from('"gone"'),
      qos: 1 as const,
      retain: true,
    };
    const node = await connectNode(url, { will });
    await broker.close();
    await untilClosed(node);
    expect(box.received).toEqual([]);
    await expect(broker.publish('wells/shed/kept', '{}', { qos: 1, retain: true })).rejects.toThrow(
      'is closed',
    );
  });
});

describe('openBuiltInBroker: misbehaving clients', () => {
  async function raw(port: number, bytes: Buffer[]): Promise<void> {
    const socket = createConnection({ port, host: '127.0.0.1' });
    const gone = new Promise<void>((resolve) => socket.once('close', () => resolve()));
    socket.on('error', () => undefined).resume();
    for (const part of bytes) socket.write(part);
    await gone;
  }

  const CONNECT = Buffer.from('101000044d5154540402003c000461626364', 'hex');
  test.each([
    ['bytes that are no MQTT', [Buffer.from('GET / HTTP/1.1\r\n\r\n')]],
    ['a packet before CONNECT', [Buffer.from('c000', 'hex')]],
    ['a length without end', [Buffer.from('10ffffffffff', 'hex')]],
    ['a packet announced as 200 MiB', [CONNECT, Buffer.from('3080808064', 'hex')]],
    ['two CONNECTs', [CONNECT, CONNECT]],
    [
      'a topic of ten thousand levels',
      [CONNECT, Buffer.concat([Buffer.from('30924e2710', 'hex'), Buffer.alloc(10_000, '/')])],
    ],
    ['a topic with a wildcard', [CONNECT, Buffer.from('3003000123', 'hex')]],
  ])('%s: dropped, and the next node is served', async (_name, bytes) => {
    const { broker, url, box } = await open({ allowLocal: true });
    await raw(broker.port, bytes);
    const node = await connectNode(url);
    await node.publishAsync('wells/shed/readings', 'r', { qos: 1 });
    await box.until(1);
    await node.endAsync();
  });

  test('a pack over 128 KiB still arrives to be refused by name; one over the broker’s limit ends the connection', async () => {
    const { url, box, troubles } = await open({ allowLocal: true });
    const node = await connectNode(url);
    await node.publishAsync('wells/shed/readings', Buffer.alloc(200 * 1024, 'x'), { qos: 1 });
    expect((await box.until(1))[0]!.payload).toHaveLength(200 * 1024);
    node.publish('wells/shed/readings', Buffer.alloc(MAX_PACKET_BYTES + 1, 'x'), { qos: 1 });
    await untilClosed(node);
    expect(box.received).toHaveLength(1);
    expect(troubles.join()).toMatch(/a packet of \d+ B, at most 262144 B are taken/);
  });
});

describe('openBuiltInBroker: a port that cannot be had', () => {
  test('a taken port is one line that says what to do', async () => {
    const other = createServer();
    const port = await listen(other, { host: '127.0.0.1', port: 0 });
    await expect(open({ port })).rejects.toThrow(
      `Cannot listen for nodes on 127.0.0.1 port ${port}: another program has this port. Stop it (often a second Stillwell or another MQTT broker), give Stillwell another port, or let it use that broker instead.`,
    );
    other.close();
  });

  test('an address that is not this computer’s is one line that says what to do', async () => {
    // 192.0.2.0/24 is reserved for documentation (RFC 5737).
    await expect(open({ host: '192.0.2.1' })).rejects.toThrow('this computer has no such address');
  });
});
