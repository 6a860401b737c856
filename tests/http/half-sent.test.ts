/**
 * Bytes that break off in the middle, over a real line: nothing of them is kept, and it is no fault
 * of ours.
 */
import { entriesOf } from '../../shared/entries/entry.ts';
import { connect } from 'node:net';
import { expect, test } from 'vitest';
import { serveWeb } from '../../src/http/serve.ts';
import { openTestApp } from './support.ts';

test('a paper whose sender goes away is not kept', async () => {
  const { app, farm } = openTestApp();
  const web = await serveWeb(app, { host: '127.0.0.1', port: 0 });
  const { port } = new URL(web.url);
  const line = connect(Number(port), '127.0.0.1');
  const text = 'Static level 41 ft';
  line.write(
    `POST /api/wells/orchard/documents?name=log.txt HTTP/1.1\r\nhost: localhost\r\ncontent-length: 1000\r\n\r\n${text}`,
  );
  // The server has begun with it once it answers another.
  await fetch(`${web.url}health`);
  line.destroy();
  await new Promise((done) => line.once('close', done));
  const whole = await fetch(`${web.url}api/wells/orchard/documents?name=next.txt`, {
    method: 'POST',
    body: text,
  });
  expect(whole.status).toBe(200);
  await web.close();
  const kept = entriesOf(await farm.deps.logbook.entries('orchard'), 'paper');
  expect(kept.map(({ body }) => body.name)).toEqual(['next.txt']);
  expect(farm.faults).toEqual([]);
});
