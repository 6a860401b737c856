/**
 * Mail against a real SMTP server library (smtp-server): what it received is read back as RFC 5322
 * text.
 */
import { noticeText } from '../../src/core/notify/notice-text.ts';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { afterEach, describe, expect, test } from 'vitest';
import { openMailSender, type MailSettings } from '../../src/channels/mail/sender.ts';
import { noticeKey, type SendResult } from '../../src/channels/sender.ts';
import { makeCertificates, NO_TLS, OPENSSL } from '../mqtt/mosquitto.ts';
import { notice, NOW_MS } from './support.ts';

const ends: (() => Promise<unknown> | void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

interface Relay {
  port: number;
  mails: { from: string; to: string[]; text: string; secure: boolean; user?: string | undefined }[];
}

async function relay(options: SMTPServerOptions = {}): Promise<Relay> {
  const mails: Relay['mails'] = [];
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    logger: false,
    onData(stream, session, done) {
      let text = '';
      stream.on('data', (part: Buffer) => (text += part.toString('utf8')));
      stream.on('end', () => {
        const from = session.envelope.mailFrom;
        mails.push({
          from: from === false ? '' : from.address,
          to: session.envelope.rcptTo.map(({ address }) => address),
          text,
          secure: session.secure,
          user: session.user,
        });
        done();
      });
    },
    ...options,
  });
  server.on('error', () => undefined);
  const port = await new Promise<number>((resolve) => {
    const listening = server.listen(0, '127.0.0.1', () => {
      const address = listening.address();
      resolve(typeof address === 'object' && address !== null ? address.port : 0);
    });
  });
  ends.push(() => new Promise<void>((resolve) => server.close(() => resolve())));
  return { port, mails };
}

async function mail(settings: Partial<MailSettings> & { port: number }, row = notice()): Promise<SendResult> {
  const sender = openMailSender({
    host: '127.0.0.1',
    secure: 'none',
    from: 'Stillwell <well@farm.example>',
    ...settings,
  });
  ends.push(() => sender.close());
  return sender.to('anna@farm.example')(row, NOW_MS);
}

/** Headers unfolded, and the body decoded (RFC 5322 section 2.2.3; RFC 2045 section 6.7). */
function parse(text: string): { headers: Record<string, string>; body: string } {
  const cut = text.indexOf('\r\n\r\n');
  const headers: Record<string, string> = {};
  for (const line of text
    .slice(0, cut)
    .replaceAll(/\r\n[ \t]+/g, ' ')
    .split('\r\n')) {
    const colon = line.indexOf(':');
    headers[line.slice(0, colon).toLowerCase()] = line.slice(colon + 1).trim();
  }
  const raw = text.slice(cut + 4);
  switch (headers['content-transfer-encoding'] ?? '') {
    case 'quoted-printable': {
      const bytes = raw
        .replaceAll('=\r\n', '')
        .replaceAll(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
      return { headers, body: Buffer.from(bytes, 'latin1').toString('utf8').replaceAll('\r\n', '\n') };
    }
    case 'base64':
      return { headers, body: Buffer.from(raw, 'base64').toString('utf8').replaceAll('\r\n', '\n') };
    default:
      return { headers, body: raw.replaceAll('\r\n', '\n') };
  }
}

describe('openMail', () => {
  test('the relay receives the notice as it was written', async () => {
    const { port, mails } = await relay();
    const row = notice();
    expect(await mail({ port }, row)).toEqual({ sent: true });
    expect(mails).toHaveLength(1);
    expect(mails[0]).toMatchObject({ from: 'well@farm.example', to: ['anna@farm.example'] });
    const { headers, body } = parse(mails[0]!.text);
    expect(headers).toMatchObject({
      from: 'Stillwell <well@farm.example>',
      to: 'anna@farm.example',
      subject: 'north-paddock: pump starts too often (act this week)',
      'message-id': `<${noticeKey(row.id)}@farm.example>`,
      references: `<${noticeKey(row.alarmId)}@farm.example>`,
      date: 'Thu, 02 Apr 2026 17:20:09 +0000',
      'auto-submitted': 'auto-generated',
    });
    expect(headers).not.toHaveProperty('importance');
    expect(headers).not.toHaveProperty('priority');
    expect(body.trim()).toBe(noticeText(row).text.trim());
  });

  test('sent twice it has the same Message-ID; what asks to act today is marked urgent', async () => {
    const { port, mails } = await relay();
    const plain = notice();
    const row = notice({ body: { ...plain.body, event: { ...plain.body.event, priority: 'now' } } });
    await mail({ port }, row);
    await mail({ port }, { ...row, tries: 1 });
    const [first, second] = mails.map(({ text }) => parse(text).headers);
    expect(second!['message-id']).toBe(first!['message-id']);
    expect(first).toMatchObject({ importance: 'high', priority: 'urgent' });
    expect(Object.keys(first!).filter((name) => name.startsWith('x-'))).toEqual([]);
  });

  test('a subject with a line break in a name adds no header', async () => {
    const { port, mails } = await relay();
    const plain = notice();
    await mail(
      { port },
      notice({ body: { ...plain.body, subject: 'x\r\nBcc: eve@elsewhere.example', text: 'x' } }),
    );
    expect(mails[0]!.to).toEqual(['anna@farm.example']);
    expect(parse(mails[0]!.text).headers).not.toHaveProperty('bcc');
  });

  test('logs in with user and password', async () => {
    const { port, mails } = await relay({
      authOptional: false,
      allowInsecureAuth: true,
      onAuth: ({ username, password }, _session, done) =>
        username === 'farm' && password === 'right' ? done(null, { user: 'farm' }) : done(new Error('no')),
    });
    expect(await mail({ port, user: 'farm', password: 'right' })).toEqual({ sent: true });
    expect(mails[0]!.user).toBe('farm');
    const refused = await mail({ port, user: 'farm', password: 'wrong' });
    expect(refused).toMatchObject({ sent: false, retryable: true });
    expect(JSON.stringify(refused)).toMatch(
      /Cannot send mail: the mail relay 127\.0\.0\.1 port \d+ answered .*535.*Check the mail user and password in the settings\./,
    );
    expect(JSON.stringify(refused)).not.toContain('wrong');
  });

  test.each([
    ['a mailbox that is not there: never again', 550, false],
    ['a mailbox that is busy: again', 450, true],
  ])('%s', async (_name, code, again) => {
    const { port } = await relay({
      onRcptTo: (_address, _session, done) =>
        done(Object.assign(new Error('not here'), { responseCode: code })),
    });
    const sent = await mail({ port });
    expect(sent).toMatchObject({ sent: false, retryable: again });
    expect(JSON.stringify(sent)).toContain('Cannot send mail to anna@farm.example');
    expect(JSON.stringify(sent)).toContain(`${code} not here`);
  });

  test('a relay that is not there', async () => {
    const other = await relay();
    await ends.pop()!();
    const sent = await mail({ port: other.port });
    expect(sent).toEqual({
      sent: false,
      retryable: true,
      problem: `Cannot send mail: nothing listens at the mail relay 127.0.0.1 port ${other.port}. Check smtp.host and smtp.port in the settings.`,
    });
  });

  test('a relay that hangs up', async () => {
    const server = createServer((socket) => socket.end());
    const port = await new Promise<number>((resolve) =>
      server.listen(0, '127.0.0.1', () => resolve(addressPort(server.address()))),
    );
    ends.push(() => new Promise<void>((resolve) => server.close(() => resolve())));
    expect(await mail({ port })).toMatchObject({ sent: false, retryable: true });
  });

  test('starttls or nothing: a relay without TLS gets no mail', async () => {
    const { port, mails } = await relay();
    const sent = await mail({ port, secure: 'starttls' });
    expect(sent).toMatchObject({ sent: false, retryable: true });
    expect(JSON.stringify(sent)).toContain('Check smtp.secure in the settings');
    expect(mails).toEqual([]);
  });
});

describe.skipIf(OPENSSL === undefined)(`openMail over TLS${OPENSSL === undefined ? NO_TLS : ''}`, () => {
  function certificates(): { key: string; cert: string; ca: string } {
    const folder = mkdtempSync(join(tmpdir(), 'stillwell-mail-'));
    ends.push(() => rmSync(folder, { recursive: true, force: true }));
    makeCertificates(folder);
    execFileSync(OPENSSL!, ['verify', '-CAfile', 'ca.pem', 'server.pem'], { cwd: folder, stdio: 'pipe' });
    const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
    return { key: read('server.key'), cert: read('server.pem'), ca: read('ca.pem') };
  }

  test.each([
    ['starttls', { disabledCommands: [] }],
    ['tls', { secure: true, disabledCommands: [] }],
  ] as const)('%s, with the farm’s own authority; without it no mail', async (secure, options) => {
    const { key, cert, ca } = certificates();
    const { port, mails } = await relay({ key, cert, ...options, disabledCommands: [] });
    expect(await mail({ host: 'localhost', port, secure, ca })).toEqual({ sent: true });
    expect(mails.map((one) => one.secure)).toEqual([true]);
    const sent = await mail({ host: 'localhost', port, secure });
    expect(sent).toMatchObject({ sent: false, retryable: true });
    expect(mails).toHaveLength(1);
  });
});

function addressPort(address: ReturnType<ReturnType<typeof createServer>['address']>): number {
  return typeof address === 'object' && address !== null ? address.port : 0;
}
