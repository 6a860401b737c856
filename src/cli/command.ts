/**
 * What every command has: where it writes, its exit code, and how its work is run. It imports
 * nothing, so that `replay` starts fast.
 */
import type { Command } from '@commander-js/extra-typings';

export interface Io {
  out: (line: string) => void;
  err: (line: string) => void;
  env: Readonly<Record<string, string | undefined>>;
  /** True if progress may be drawn: a person looks at stderr. */
  progress: boolean;
}

export interface CommandContext {
  io: Io;
  /** Makes the action of a command from its work. The work returns the exit code. */
  action: <A extends unknown[]>(
    work: (...args: A) => Promise<number> | number,
  ) => (...args: A) => Promise<void>;
}

/** Gives a new command its description, arguments, options and work. */
export type CommandBuilder = (command: Command, context: CommandContext) => void;

/** Done; failed for a reason of ours or of the world; the input or the settings cannot be used. */
export const EXIT = { ok: 0, failed: 1, usage: 2 } as const;

/** A mistake in what was typed: one line, exit 2. */
export class UsageError extends Error {}
