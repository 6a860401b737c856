/**
 * Debian's mosquitto as an outside broker, started for one test on loopback with its own folder,
 * certificates made by the openssl command. Where one of the two is missing the tests that need it
 * are skipped, and say why.
 */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createConnection, createServer } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { listen } from '../../src/mqtt/listen.ts';

const PLACES = [
  '/usr/sbin',
  '/usr/local/sbin',
  '/usr/bin',
  '/usr/local/bin',
  '/opt/homebrew/bin',
  '/opt/homebrew/sbin',
];

export function findCommand(name: string): string | undefined {
  return PLACES.map((place) => join(place, name)).find((path) => existsSync(path));
}

export const MOSQUITTO = findCommand('mosquitto');
export const OPENSSL = findCommand('openssl');
export const NO_MOSQUITTO = MOSQUITTO === undefined ? ' (skipped: mosquitto is not installed here)' : '';
export const NO_TLS =
  MOSQUITTO === undefined || OPENSSL === undefined
    ? ' (skipped: mosquitto or openssl is not installed here)'
    : '';

export interface Mosquitto {
  ports: number[];
  folder: string;
  end(): Promise<void>;
  /** Ends the process and starts it again on the same ports. */
  restart(): Promise<void>;
}

/** `config` gets free ports and the test's own folder, where files may be laid before the start. */
export async function startMosquitto(
  config: (at: { port: (at: number) => number; folder: string }) => string,
  files: (folder: string) => void = () => undefined,
): Promise<Mosquitto> {
  const folder = mkdtempSync(join(tmpdir(), 'stillwell-broker-'));
  const ports = [await freePort(), await freePort()];
  files(folder);
  const used = new Set<number>();
  const asked = config({
    folder,
    port(at) {
      used.add(ports[at]!);
      return ports[at]!;
    },
  });
  // Started by root it would become another user, who may not read the test's folder.
  writeFileSync(join(folder, 'mosquitto.conf'), `user ${userInfo().username}\n${asked}`);
  let child = await run(folder, used);
  return {
    ports,
    folder,
    async end() {
      await stop(child);
      rmSync(folder, { recursive: true, force: true });
    },
    async restart() {
      await stop(child);
      child = await run(folder, used);
    },
  };
}

async function run(folder: string, ports: Iterable<number>): Promise<ChildProcess> {
  const child = spawn(MOSQUITTO!, ['-c', join(folder, 'mosquitto.conf')], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let said = '';
  child.stderr.on('data', (part: Buffer) => (said += part.toString()));
  for (const port of ports) {
    while (!(await answers(port))) {
      if (child.exitCode !== null) throw new Error(`Cannot start mosquitto: ${said}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }
  return child;
}

async function stop(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const gone = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  await gone;
}

function answers(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection({ port, host: '127.0.0.1' });
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}

async function freePort(): Promise<number> {
  const server = createServer();
  const port = await listen(server, { host: '127.0.0.1', port: 0 });
  await new Promise((resolve) => server.close(resolve));
  return port;
}

/** An authority, a server certificate for localhost, and a client certificate, in this folder. */
export function makeCertificates(folder: string): void {
  const openssl = (...args: string[]): void =>
    void execFileSync(OPENSSL!, args, { cwd: folder, stdio: 'pipe' });
  openssl(
    'req',
    '-x509',
    '-newkey',
    'rsa:2048',
    '-nodes',
    '-keyout',
    'ca.key',
    '-out',
    'ca.pem',
    '-days',
    '2',
    '-subj',
    '/CN=Test authority',
  );
  writeFileSync(join(folder, 'names.txt'), 'subjectAltName=DNS:localhost\n');
  for (const [name, subject] of [
    ['server', '/CN=localhost'],
    ['client', '/CN=stillwell'],
  ] as const) {
    openssl(
      'req',
      '-newkey',
      'rsa:2048',
      '-nodes',
      '-keyout',
      `${name}.key`,
      '-out',
      `${name}.csr`,
      '-subj',
      subject,
    );
    openssl(
      'x509',
      '-req',
      '-in',
      `${name}.csr`,
      '-CA',
      'ca.pem',
      '-CAkey',
      'ca.key',
      '-CAcreateserial',
      '-out',
      `${name}.pem`,
      '-days',
      '2',
      '-extfile',
      'names.txt',
    );
  }
}
