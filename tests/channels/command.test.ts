/** Commands are real programs: node itself, with a script as its argument. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { commandSender } from '../../src/channels/command/sender.ts';
import { noticePayload, type SendResult } from '../../src/channels/sender.ts';
import { notice, NOW_MS } from './support.ts';

let folder = '';
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'stillwell-command-'))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(script: string, more: { withinMs?: number; args?: string[] } = {}): Promise<SendResult> {
  const { withinMs, args = [] } = more;
  const send = commandSender({
    program: process.execPath,
    args: ['-e', script, ...args],
    ...(withinMs === undefined ? {} : { timeoutMs: withinMs }),
  });
  return send(notice(), NOW_MS);
}

test('commandSender: the notice comes as JSON on standard input, arguments as they are, without a shell', async () => {
  const out = join(folder, 'got.json');
  const script = `const fs=require('fs');fs.writeFileSync(${JSON.stringify(out)},JSON.stringify({argv:process.argv.slice(1),input:fs.readFileSync(0,'utf8'),env:Object.keys(process.env).sort()}))`;
  expect(await run(script, { args: ['$(touch nothing)', 'two words', '; exit 1'] })).toEqual({ sent: true });
  const got: unknown = JSON.parse(readFileSync(out, 'utf8'));
  expect(got).toEqual({
    argv: ['$(touch nothing)', 'two words', '; exit 1'],
    input: `${JSON.stringify(noticePayload(notice()))}\n`,
    env: ['LANG', 'PATH'],
  });
});

test('commandSender: nothing of our environment is handed on', async () => {
  process.env['STILLWELL_TEST_SECRET'] = 'secret';
  const sent = await run(`process.exit(process.env.STILLWELL_TEST_SECRET === undefined ? 0 : 1)`);
  delete process.env['STILLWELL_TEST_SECRET'];
  expect(sent).toEqual({ sent: true });
});

test('commandSender: a program that does not read its input is fine', async () => {
  expect(await run('process.stdin.destroy()')).toEqual({ sent: true });
});

test('commandSender: an exit code and what it said are told, on one line and short', async () => {
  const sent = await run(`process.stderr.write('no\\nlamp '+'x'.repeat(9999));process.exitCode=3`);
  expect(sent).toMatchObject({ sent: false, retryable: true });
  expect(JSON.stringify(sent)).toMatch(/The command .* ended with code 3: no lamp x{100,400}\./);
});

test('commandSender: ended by a signal', async () => {
  expect(await run(`process.kill(process.pid,'SIGKILL');setTimeout(()=>{},1e6)`)).toMatchObject({
    sent: false,
    problem: expect.stringContaining('was ended by SIGKILL'),
  });
});

test('commandSender: too long, it and what it started are ended', async () => {
  const pidFile = join(folder, 'child.pid');
  const script = `
    const {spawn}=require('child_process');
    const child=spawn(process.execPath,['-e','setInterval(()=>{},1e6)'],{stdio:'ignore'});
    require('fs').writeFileSync(${JSON.stringify(pidFile)},String(child.pid));
    setInterval(()=>{},1e6)`;
  const sent = await run(script, { withinMs: 1500 });
  expect(sent).toMatchObject({
    sent: false,
    retryable: true,
    problem: expect.stringContaining('took longer than 1.5 s and was ended'),
  });
  if (existsSync(pidFile)) {
    const pid = Number(readFileSync(pidFile, 'utf8'));
    await expect.poll(() => isAlive(pid)).toBe(false);
  }
});

test.each([
  ['one that is not there', '/nowhere/lamp', 'there is no such program. Give its full path in the settings.'],
  ['one that may not be run', 'plain-file', 'this user may not run it. Make it executable.'],
])('commandSender: %s', async (_name, program, says) => {
  const path = program.startsWith('/') ? program : join(folder, program);
  if (!program.startsWith('/')) writeFileSync(path, 'no program', { mode: 0o600 });
  const sent = await commandSender({ program: path, args: [] })(notice(), NOW_MS);
  expect(sent).toEqual({ sent: false, retryable: true, problem: `Cannot run the command ${path}: ${says}` });
});

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
  } catch {
    return false;
  }
  // A zombie answers signals: on Linux its state says so.
  return !/^\d+ \(.*\) Z/.test(
    existsSync(`/proc/${pid}/stat`) ? readFileSync(`/proc/${pid}/stat`, 'utf8') : '',
  );
}
