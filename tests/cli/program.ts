/**
 * The built program in a process of its own, as a person runs it: what it prints, and its exit
 * code.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../dist/main.js', import.meta.url));

export interface Program {
  process: ChildProcess;
  out: () => string;
  err: () => string;
  /** Resolves with the first match on stderr or stdout; rejects when the program ends before. */
  until: (pattern: RegExp) => Promise<RegExpExecArray>;
  /** The exit code. */
  ended: Promise<number | null>;
}

export function start(args: string[]): Program {
  const child = spawn(process.execPath, [MAIN, ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { PATH: process.env['PATH'] ?? '' },
  });
  let out = '';
  let err = '';
  const ended = new Promise<number | null>((done) => child.once('close', (code) => done(code)));
  child.stdout.on('data', (chunk) => (out += String(chunk)));
  child.stderr.on('data', (chunk) => (err += String(chunk)));
  const until = (pattern: RegExp): Promise<RegExpExecArray> =>
    new Promise((resolve, reject) => {
      const look = (): void => {
        const found = pattern.exec(err) ?? pattern.exec(out);
        if (found) resolve(found);
      };
      child.stdout.on('data', look);
      child.stderr.on('data', look);
      look();
      void ended.then(() => reject(new Error(`ended without ${pattern}: ${out}${err}`)));
    });
  return { process: child, out: () => out, err: () => err, until, ended };
}

/** Runs to its end. */
export async function run(args: string[]): Promise<{ code: number | null; out: string; err: string }> {
  const program = start(args);
  const code = await program.ended;
  return { code, out: program.out(), err: program.err() };
}

/** A folder for one test's data, gone afterwards. */
export function folder(): { path: string; remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), 'stillwell-test-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}
