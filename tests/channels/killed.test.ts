/**
 * The outbox in a process of its own, over a real store, killed without warning again and again
 * while it sends: at the end each notice has been received, and by its id each exactly once.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { noticeKey } from '../../src/channels/sender.ts';
import { openStore } from '../../src/store/open-store.ts';
import { noticeRows } from './support.ts';

const ROWS = 40;
/** Killed once so many have been received, some before the answer and some after it. */
const KILL_AT = [
  { received: 3, answered: false },
  { received: 11, answered: true },
  { received: 12, answered: false },
  { received: 30, answered: true },
];
const SCRIPT = fileURLToPath(new URL('outbox-process.ts', import.meta.url));

let folder = '';
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'stillwell-outbox-'))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('openOutbox: killed four times while sending, each notice is received once by its id', async () => {
  const received: string[] = [];
  const plan = [...KILL_AT];
  let child: ChildProcess;
  let dying = false;
  const server = createServer((request, response) => {
    request.resume().on('end', () => {
      received.push(String(request.headers['webhook-id']));
      const due = !dying && plan[0] !== undefined && new Set(received).size >= plan[0].received;
      const kill = due ? plan.shift() : undefined;
      dying ||= due;
      if (kill?.answered === false) child.kill('SIGKILL');
      response.writeHead(204).end(() => {
        if (kill?.answered === true) child.kill('SIGKILL');
      });
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const url = `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}/`;
  const path = join(folder, 'outbox.db');

  const endings: (number | string | null)[] = [];
  while (endings.at(-1) !== 0 && endings.length < KILL_AT.length + 2) {
    dying = false;
    child = spawn(process.execPath, ['--import', 'tsx', SCRIPT, path, url, String(ROWS)], {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    endings.push(
      await new Promise((resolve) => child.once('exit', (code, signal) => resolve(signal ?? code))),
    );
  }
  await new Promise((resolve) => server.close(resolve));

  expect(endings).toEqual([...KILL_AT.map(() => 'SIGKILL'), 0]);
  expect([...new Set(received)].sort()).toEqual(
    noticeRows(ROWS)
      .map(({ id }) => `msg_${noticeKey(id)}`)
      .sort(),
  );
  // Four ways are served at once, so a kill can cut off four markings.
  expect(received.length - ROWS).toBeLessThanOrEqual(4 * KILL_AT.length);
  const store = openStore(path);
  expect((await store.notices({})).map(({ state }) => state)).toEqual(
    Array.from({ length: ROWS }, () => 'sent'),
  );
  await store.close();
});
