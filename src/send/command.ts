/**
 * A command on this computer: started without a shell, with the notice as JSON on its standard input and nothing of ours in its
 * environment. It has 30 s; then it and what it started are ended. Exit code 0 means told.
 */
import { spawn } from 'node:child_process';
import { failed, messageOf, noticeData, type Send, type Sent } from './sender.ts';

export interface CommandSettings {
  program: string;
  args: readonly string[];
  /** For tests; 30 s. */
  withinMs?: number;
}

const WITHIN_MS = 30_000;
const MOST_STDERR_LETTERS = 300;
/** Where system programs are; secrets that came by the environment are not handed on. */
const ENVIRONMENT = { PATH: '/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin', LANG: 'C.UTF-8' };

export function commandSender({ program, args, withinMs = WITHIN_MS }: CommandSettings): Send {
  return (notice) =>
    new Promise((resolve) => {
      const child = spawn(program, args, {
        shell: false,
        detached: true,
        env: ENVIRONMENT,
        stdio: ['pipe', 'ignore', 'pipe'],
      });
      let said = '';
      let late = false;
      const timer = setTimeout(() => {
        late = true;
        endGroup(child.pid);
      }, withinMs);
      const finish = (sent: Sent): void => {
        clearTimeout(timer);
        resolve(sent);
      };
      child.stderr.on(
        'data',
        (part: Buffer) => (said = (said + part.toString('utf8')).slice(0, MOST_STDERR_LETTERS)),
      );
      child.once('error', (error) => finish(notStarted(program, error)));
      child.once('exit', (code, signal) =>
        finish(late ? tooLate(program, withinMs) : judge(program, { code, signal, said })),
      );
      // A program that does not read its input is fine: then the pipe breaks.
      child.stdin.on('error', () => undefined);
      child.stdin.end(`${JSON.stringify(noticeData(notice))}\n`);
    });
}

function judge(program: string, ended: { code: number | null; signal: string | null; said: string }): Sent {
  if (ended.code === 0) return { sent: true };
  const how = ended.code === null ? `was ended by ${ended.signal}` : `ended with code ${ended.code}`;
  const said = ended.said.trim().replaceAll(/\s+/g, ' ');
  return failed(`The command ${program} ${how}${said === '' ? '' : `: ${said}`}.`, true);
}

function tooLate(program: string, withinMs: number): Sent {
  return failed(`The command ${program} took longer than ${withinMs / 1000} s and was ended.`, true);
}

function notStarted(program: string, error: NodeJS.ErrnoException): Sent {
  switch (error.code ?? '') {
    case 'ENOENT':
      return failed(
        `Cannot run the command ${program}: there is no such program. Give its whole path in the settings.`,
        true,
      );
    case 'EACCES':
      return failed(
        `Cannot run the command ${program}: it may not be run by this user. Make it executable.`,
        true,
      );
    default:
      return failed(`Cannot run the command ${program}: ${messageOf(error)}.`, true);
  }
}

/** The command leads its own process group, so that what it started ends with it. */
function endGroup(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    // It has just ended by itself.
  }
}
