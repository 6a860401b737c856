/**
 * The server's log: one plain line each, with our clock, on stderr, so that a person or the
 * system's journal can read it. Sentences name what strangers send (user names, topics): whatever
 * could end a line or move a terminal's cursor is written out, so that nobody can write a line of
 * their own.
 */
import type { Io } from './command.ts';

export type Log = (level: 'info' | 'warn' | 'error', sentence: string) => void;

export function newLog(io: Io, now: () => number = Date.now): Log {
  return (level, sentence) => {
    const mark = level === 'info' ? '' : `${level}: `;
    io.err(`${new Date(now()).toISOString().slice(0, 19)}Z  ${mark}${onOneLine(sentence)}`);
  };
}

/**
 * Control characters (Unicode's Cc: C0, DEL, C1), the two separators of lines, and those that turn
 * the direction of writing (UAX #9).
 */
const UNPRINTABLE = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;
const SHORT: Record<string, string> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };

function onOneLine(sentence: string): string {
  return sentence.replaceAll(
    UNPRINTABLE,
    (letter) => SHORT[letter] ?? `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/**
 * Resolves when somebody ends the program: Ctrl-C, or the system on its way down. A second time
 * ends it at once.
 */
export function untilShutdown(): Promise<void> {
  return new Promise((resolve) => {
    let requested = false;
    for (const signal of ['SIGINT', 'SIGTERM'] as const) {
      process.on(signal, () => {
        if (requested) process.exit(1);
        requested = true;
        resolve();
      });
    }
  });
}
