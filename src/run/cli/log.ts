/** The server's log: one plain line each, with our clock, on stderr, so that a person or the system's journal can read it. */
import type { Io } from './command.ts';

export type Log = (level: 'info' | 'warn' | 'error', sentence: string) => void;

export function newLog(io: Io, now: () => number = Date.now): Log {
  return (level, sentence) => {
    const mark = level === 'info' ? '' : `${level}: `;
    io.err(`${new Date(now()).toISOString().slice(0, 19)}Z  ${mark}${sentence}`);
  };
}

/** Resolves when somebody ends the program: Ctrl-C, or the system on its way down. A second time ends it at once. */
export function untilEnded(): Promise<void> {
  return new Promise((resolve) => {
    let asked = false;
    for (const signal of ['SIGINT', 'SIGTERM'] as const) {
      process.on(signal, () => {
        if (asked) process.exit(1);
        asked = true;
        resolve();
      });
    }
  });
}
