/** Webhooks against a real HTTP server, and against the published vector of Standard Webhooks. */
import { noticeText } from '../../src/core/notify/notice-text.ts';
import { createServer, type IncomingHttpHeaders } from 'node:http';
import { Webhook } from 'standardwebhooks';
import { afterEach, describe, expect, test } from 'vitest';
import { signedRequest, webhookSender } from '../../src/channels/webhook/sender.ts';
import { noticeKey } from '../../src/channels/sender.ts';
import { notice, NOW_MS } from './support.ts';

const SECRET = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw';
const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) await end();
});

interface Hook {
  url: string;
  calls: { headers: IncomingHttpHeaders; body: string; method: string; path: string }[];
}

async function hook(status = 204, headers: Record<string, string> = {}): Promise<Hook> {
  const calls: Hook['calls'] = [];
  const server = createServer((request, response) => {
    let body = '';
    request.on('data', (part: Buffer) => (body += part.toString('utf8')));
    request.on('end', () => {
      calls.push({ headers: request.headers, body, method: request.method ?? '', path: request.url ?? '' });
      response.writeHead(status, headers).end();
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  ends.push(() => new Promise((resolve) => server.close(resolve)));
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  return { url: `http://127.0.0.1:${port}/hook?key=hidden`, calls };
}

describe('webhookSender', () => {
  // Standard Webhooks 1.0.0, spec/standard-webhooks.md: the example secret, id, timestamp and body
  // with their signature.
  test('the library signs the published vector as published', () => {
    expect(
      new Webhook(SECRET).sign(
        'msg_p5jXN8AQM9LWM0D4loKWxJek',
        new Date(1_614_265_330_000),
        '{"test": 2432232314}',
      ),
    ).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });

  test('what is received verifies with the reference library, and carries the alarm', async () => {
    const { url, calls } = await hook();
    const row = notice();
    const nowMs = Date.now();
    expect(await webhookSender({ url, secret: SECRET })(row, nowMs)).toEqual({ sent: true });
    const [call] = calls;
    expect(call).toMatchObject({ method: 'POST', path: '/hook?key=hidden' });
    const verified = new Webhook(SECRET).verify(call!.body, {
      'webhook-id': String(call!.headers['webhook-id']),
      'webhook-timestamp': String(call!.headers['webhook-timestamp']),
      'webhook-signature': String(call!.headers['webhook-signature']),
    });
    expect(verified).toEqual({
      type: 'alarm.raised',
      timestamp: '2026-04-02T17:20:09.000Z',
      data: {
        id: noticeKey(row.id),
        what: 'raised',
        to: 'anna',
        ...noticeText(row),
        reason: row.body.reason,
        event: row.body.event,
      },
    });
  });

  test('another secret does not verify it', () => {
    const { headers, body } = signedRequest(SECRET, notice(), Date.now());
    expect(() => new Webhook('whsec_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA').verify(body, headers)).toThrow(
      'No matching signature',
    );
  });

  test('the id and the body are the same at each try, the time is the try’s', () => {
    const first = signedRequest(SECRET, notice(), NOW_MS);
    const second = signedRequest(
      SECRET,
      notice({ tries: 4, lastError: 'x', dueMs: NOW_MS + 5 }),
      NOW_MS + 60_000,
    );
    expect(second.body).toBe(first.body);
    expect(second.headers['webhook-id']).toBe(first.headers['webhook-id']);
    expect(first.headers['webhook-id']).toMatch(/^msg_[0-9a-f]{32}$/);
    expect(second.headers['webhook-timestamp']).toBe(String(NOW_MS / 1000 + 60 - 0.0).split('.')[0]);
    expect(second.headers['webhook-signature']).not.toBe(first.headers['webhook-signature']);
  });

  test.each([
    [200, true, undefined, undefined],
    [202, true, undefined, undefined],
    [400, false, true, /answered 400 Bad Request; only 2xx means that it was accepted\.$/],
    [404, false, true, /answered 404/],
    [410, false, false, /answered 410/],
    [500, false, true, /answered 500/],
    [503, false, true, /answered 503/],
  ] as const)('an answer of %i: sent %s, again %s', async (status, sent, again, problem) => {
    const { url } = await hook(status);
    const result = await webhookSender({ url, secret: SECRET })(notice(), NOW_MS);
    expect(result.sent).toBe(sent);
    if (result.sent) return;
    expect(result.retryable).toBe(again);
    expect(result.problem).toMatch(problem!);
    expect(result.problem).not.toContain('hidden');
  });

  test.each([301, 302, 307, 308])('a redirect of %i is not followed', async (status) => {
    const elsewhere = await hook();
    const { url } = await hook(status, { location: elsewhere.url });
    const result = await webhookSender({ url, secret: SECRET })(notice(), NOW_MS);
    expect(result).toMatchObject({ sent: false, retryable: true });
    expect(JSON.stringify(result)).toContain(
      'Redirects are not followed. Give the final address in the settings.',
    );
    expect(elsewhere.calls).toEqual([]);
  });

  test('nobody there', async () => {
    const { url } = await hook();
    await ends.pop()!();
    const result = await webhookSender({ url, secret: SECRET })(notice(), NOW_MS);
    expect(result).toEqual({
      sent: false,
      retryable: true,
      problem: `Cannot call the webhook at ${new URL(url).host}: nothing is listening there.`,
    });
  });
});
