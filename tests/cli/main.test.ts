import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { encodePackJson } from '../../src/core/decode/senml-json/encode-pack.ts';
import { runHere } from './command-line.ts';
import { folder, run, start, type Program } from './program.ts';

let data: ReturnType<typeof folder>;
let started: Program[] = [];

beforeEach(() => {
  data = folder();
  started = [];
});
afterEach(async () => {
  for (const program of started) program.process.kill('SIGKILL');
  await Promise.all(started.map((program) => program.ended));
  data.remove();
});

function begin(args: string[]): Program {
  const program = start(args);
  started.push(program);
  return program;
}

const SERVE = ['--port', '0', '--broker-port', '0'];
const serve = (...more: string[]): Program => begin(['serve', '--data', data.path, ...SERVE, ...more]);

describe('stillwell', () => {
  it('lists its commands, and says more of each', async () => {
    const { code, out } = await run(['--help']);
    expect(code).toBe(0);
    for (const name of ['serve', 'demo', 'replay', 'record', 'node', 'card', 'send-test']) {
      expect(out).toMatch(new RegExp(`^  ${name} `, 'm'));
      const more = await runHere([name, '--help']);
      expect(more.code).toBe(0);
      expect(more.out.length).toBeGreaterThan(150);
    }
  });

  it.each([
    { args: ['watch'], says: 'Cannot run "watch": it must be one of serve' },
    { args: ['serve', '--loud'], says: '--loud' },
    { args: ['serve', '--port', '99999999'], says: 'it must be a whole number from 0 to 65535' },
    { args: ['replay'], says: 'recording must be given' },
    { args: ['node', 'add'], says: 'name must be given' },
    {
      args: ['node', 'add', 'Barn North'],
      says: 'a node name must be 1 to 40 characters from a-z, 0-9 and -',
    },
    { args: ['demo', '--days', '0'], says: 'from 1 to 400' },
  ])('$args is a mistake that is named, in one line', async ({ args, says }) => {
    const { code, err } = await runHere(args[0] === 'node' ? [...args, '--data', data.path] : args);
    expect(code).toBe(2);
    expect(err).toContain(says);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('ends with exit 2 and one line where a command line has a mistake, and prints nothing else', async () => {
    const { code, out, err } = await run(['serve', '--loud']);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('--loud');
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it.each([
    { name: 'an unknown key', settings: { brokr: {} }, says: 'brokr' },
    { name: 'a port out of range', settings: { web: { port: 99_999 } }, says: '99999' },
    { name: 'what is no JSON', settings: '{', says: 'Cannot read settings' },
  ])('refuses settings with $name: exit 2', async ({ settings, says }) => {
    const file = join(data.path, 'settings.json');
    writeFileSync(file, typeof settings === 'string' ? settings : JSON.stringify(settings));
    const { code, err } = await runHere(['serve', '--settings', file, '--data', data.path, ...SERVE]);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });

  it('keeps the credentials of nodes', async () => {
    const node = (...args: string[]): ReturnType<typeof runHere> =>
      runHere(['node', ...args, '--data', data.path]);
    expect((await node('list')).out).toContain('No node has a password yet');
    const added = await node('add', 'barn-north');
    expect(added.code).toBe(0);
    const password = /Password\s+(\S+)/.exec(added.out)![1]!;
    expect(password.length).toBeGreaterThan(20);
    const listed = await node('list');
    expect(listed.out).toContain('barn-north');
    expect(listed.out).not.toContain(password);
    expect((await node('remove', 'barn-north')).code).toBe(0);
    expect((await node('list')).out).not.toContain('barn-north  ');
  });

  it('tells by a local command', async () => {
    const said = join(data.path, 'said.json');
    const settings = join(data.path, 'settings.json');
    const program = process.execPath;
    const args = ['-e', `process.stdin.pipe(require('node:fs').createWriteStream(${JSON.stringify(said)}))`];
    writeFileSync(settings, JSON.stringify({ notices: [{ name: 'siren', command: { program, args } }] }));
    const { code, out } = await runHere(['send-test', 'siren', '--settings', settings]);
    expect(out).toContain('siren, command: Sent by');
    expect(code).toBe(0);
    expect(existsSync(said)).toBe(true);
    const unknown = await runHere(['send-test', 'nobody', '--settings', settings]);
    expect(unknown.code).toBe(2);
    expect(unknown.err).toContain('siren');
  });
});

describe('stillwell serve', () => {
  const pages = async (server: Program): Promise<string> => (await server.until(/Pages: (http:\S+)/))[1]!;
  const brokerPort = async (server: Program): Promise<number> =>
    Number((await server.until(/[Bb]roker\D*(?:127\.0\.0\.1:|port )(\d+)/))[1]);

  it('says where it is, answers, and ends when it is told to', async () => {
    const server = serve();
    const url = await pages(server);
    expect((await fetch(`${url}health`)).status).toBe(200);
    expect(await (await fetch(url)).text()).toContain('<title>');
    server.process.kill('SIGTERM');
    expect(await server.ended).toBe(0);
  });

  it('says in one line that a port is taken', async () => {
    const taken = createServer();
    await new Promise<void>((done) => taken.listen(0, '127.0.0.1', done));
    const address = taken.address();
    const port = String(typeof address === 'object' && address ? address.port : 0);
    for (const flags of [
      ['--port', port, '--broker-port', '0'],
      ['--port', '0', '--broker-port', port],
    ]) {
      const { code, err } = await run(['serve', '--data', data.path, ...flags]);
      expect(code).toBe(1);
      expect(err).toContain(port);
      expect(err).toMatch(/another program/);
    }
    await new Promise((done) => taken.close(done));
  });

  it('lets two servers not share one store', async () => {
    const first = serve();
    await pages(first);
    const { code, err } = await run(['serve', '--data', data.path, ...SERVE]);
    expect(code).toBe(1);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('lets a node in by its credential, keeps its packs, and records what replay reads', async () => {
    const server = serve();
    const url = await pages(server);
    const port = await brokerPort(server);
    await expect(
      connectAsync(`mqtt://127.0.0.1:${port}`, { username: 'barn', password: 'wrong' }, false),
    ).rejects.toThrow();
    const added = await runHere(['node', 'add', 'barn', '--data', data.path]);
    const password = /Password\s+(\S+)/.exec(added.out)![1]!;
    const out = join(data.path, 'out.ndjson');
    const recorder = begin(['record', out, '--data', data.path]);
    await recorder.until(/Recording/);
    const node = await connectAsync(`mqtt://127.0.0.1:${port}`, { username: 'barn', password }, false);
    const kept = keptOf(node);
    await node.subscribeAsync('wells/barn/kept', { qos: 1 });
    await sendRun(node);
    await kept(3);
    await node.endAsync();
    recorder.process.kill('SIGINT');
    expect(await recorder.ended).toBe(0);
    // Written without a mode of its own: the program's own umask keeps others out. Windows knows no
    // such modes.
    if (process.platform !== 'win32') expect(statSync(out).mode & 0o777).toBe(0o600);
    expect(
      readFileSync(out, 'utf8')
        .split('\n')
        .filter((line) => line.includes('/readings')),
    ).toHaveLength(3);
    const replayed = await run(['replay', out]);
    expect(replayed.code).toBe(0);
    const cycles = replayed.out.split('\n').filter((line) => line.includes('"cycle"'));
    expect(cycles).toHaveLength(1);
    const answer = (await (
      await fetch(`${url}api/wells/barn/cycles?from=${Date.now() - 3_600_000}&to=${Date.now() + 60_000}`)
    ).json()) as { cycles: unknown[] };
    expect(answer.cycles).toEqual([
      expect.objectContaining({ started: (JSON.parse(cycles[0]!) as { started: string }).started }),
    ]);
    const listed = await runHere(['node', 'list', '--data', data.path]);
    expect(listed.out).not.toContain('recorder');
  });
});

/** Resolves once the server says that it has kept up to this seq. */
function keptOf(node: MqttClient): (seq: number) => Promise<void> {
  let upTo = 0;
  let wake = (): void => undefined;
  node.on('message', (_topic, payload) => {
    upTo = Math.max(upTo, (JSON.parse(payload.toString()) as { seq?: number }).seq ?? 0);
    wake();
  });
  return (seq) =>
    new Promise((resolve) => {
      wake = () => {
        if (upTo >= seq) resolve();
      };
      wake();
    });
}

/** One run of a minute within three packs of 60 s, just past. */
async function sendRun(node: MqttClient): Promise<void> {
  const fromMs = Math.floor(Date.now() / 1000) * 1000 - 180_000;
  for (let seq = 1; seq <= 3; seq++) {
    const times = Float64Array.from({ length: 60 }, (_, i) => fromMs + ((seq - 1) * 60 + i) * 1000);
    const values = Float64Array.from({ length: 60 }, () => (seq === 2 ? 8.2 : 0));
    const pack = encodePackJson({
      node: 'barn',
      clock: 'utc',
      boot: 5,
      seq,
      columns: [{ channel: 'current', times, values }],
    });
    await node.publishAsync('wells/barn/readings', Buffer.from(pack), { qos: 1 });
  }
}
