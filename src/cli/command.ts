/** One command of the command line: what it is called, what it says of itself, and what it does. Exit codes are its answer. */
export interface Io {
  out: (line: string) => void;
  err: (line: string) => void;
  env: Readonly<Record<string, string | undefined>>;
  /** True where progress may be drawn: a person looks at stderr. */
  progress: boolean;
}

export interface Command {
  name: string;
  /** How it is written, after `stillwell`. */
  usage: string;
  /** One sentence for the list of commands. */
  about: string;
  /** What `stillwell NAME --help` adds. */
  more: string;
  run: (args: string[], io: Io) => Promise<number>;
}

/** Done; the user's or the setting's mistake; our own or the world's. */
export const EXIT = { ok: 0, failed: 1, usage: 2 } as const;

/** A mistake in what was typed: one line, exit 2. */
export class UsageError extends Error {}
