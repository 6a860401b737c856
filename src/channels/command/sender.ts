/**
 * A command on this computer: started without a shell, with the notice as JSON on its standard
 * input and nothing of ours in its environment. It has 30 s; then it and what it started are ended.
 * Exit code 0 means told.
 */
import { spawn } from 'node:child_process';
import { sendFailure, errorMessage, noticePayload, type Send, type SendResult } from '../sender.ts';
import { texts } from './texts.ts';

export interface CommandSettings {
  program: string;
  args: readonly string[];
  /** For tests; 30 s. */
  timeoutMs?: number;
}

const DEFAULT_TIMEOUT_MS = 30_000;
const MAX_STDERR_CHARACTERS = 300;
/** Where system programs are; secrets that came by the environment are not handed on. */
const ENVIRONMENT = { PATH: '/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin', LANG: 'C.UTF-8' };

export function commandSender({ program, args, timeoutMs = DEFAULT_TIMEOUT_MS }: CommandSettings): Send {
  return (notice) =>
    new Promise((resolve) => {
      const child = spawn(program, args, {
        shell: false,
        detached: true,
        env: ENVIRONMENT,
        stdio: ['pipe', 'ignore', 'pipe'],
      });
      let stderr = '';
      let timedOut = false;
      const timer = setTimeout(() => {
        timedOut = true;
        killProcessGroup(child.pid);
      }, timeoutMs);
      const finish = (sent: SendResult): void => {
        clearTimeout(timer);
        resolve(sent);
      };
      child.stderr.on(
        'data',
        (part: Buffer) => (stderr = (stderr + part.toString('utf8')).slice(0, MAX_STDERR_CHARACTERS)),
      );
      child.once('error', (error) => finish(startFailure(program, error)));
      child.once('exit', (code, signal) =>
        finish(
          timedOut ? timeoutFailure(program, timeoutMs) : resultOfExit(program, { code, signal, stderr }),
        ),
      );
      // A program that does not read its input is fine: then the pipe breaks.
      child.stdin.on('error', () => undefined);
      child.stdin.end(`${JSON.stringify(noticePayload(notice))}\n`);
    });
}

function resultOfExit(
  program: string,
  exit: { code: number | null; signal: string | null; stderr: string },
): SendResult {
  if (exit.code === 0) return { sent: true };
  const how = exit.code === null ? texts().wasEnded(exit.signal ?? '') : texts().endedWithCode(exit.code);
  const stderr = exit.stderr.trim().replaceAll(/\s+/g, ' ');
  return sendFailure(texts().command({ program, how, rest: stderr === '' ? '' : `: ${stderr}` }), true);
}

function timeoutFailure(program: string, timeoutMs: number): SendResult {
  return sendFailure(texts().commandTookLongerThanS({ program, timeoutMs: timeoutMs / 1000 }), true);
}

function startFailure(program: string, error: NodeJS.ErrnoException): SendResult {
  switch (error.code ?? '') {
    case 'ENOENT':
      return sendFailure(texts().thereIsNoSuchProgram(program), true);
    case 'EACCES':
      return sendFailure(texts().programMayNotBeRun(program), true);
    default:
      return sendFailure(texts().cannotRunTheCommand({ program, reason: errorMessage(error) }), true);
  }
}

/** The command leads its own process group, so that what it started ends with it. */
function killProcessGroup(pid: number | undefined): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    // It has just ended by itself.
  }
}
