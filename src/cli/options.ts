/** Reads a command's options: an unknown one, or one without its value, is a mistake that is named. */
import { parseArgs, type ParseArgsConfig } from 'node:util';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { UsageError } from './command.ts';

type Options = NonNullable<ParseArgsConfig['options']>;

/** `flags` by name; `names` is what stood beside them. Throws Misuse. */
export function readOptions<T extends Options>(
  args: string[],
  options: T,
): {
  flags: ReturnType<typeof parseArgs<{ options: T; allowPositionals: true }>>['values'];
  names: string[];
} {
  try {
    const { values, positionals } = parseArgs({ args, options, allowPositionals: true, strict: true });
    return { flags: values, names: positionals };
  } catch (error) {
    throw new UsageError(problemOf(error), { cause: error });
  }
}

/** Node's own sentences go on about its library; ours name the option. */
function problemOf(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const option = /'(--?[^\s']+)/.exec(message)?.[1] ?? '';
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return `There is no option ${option} here. Try --help`;
  if (code === 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE') return `Cannot read ${option}: a value must follow it`;
  return message;
}

/** Throws Misuse. */
export function readUnits(text: string | undefined): UnitSystem | undefined {
  if (text === undefined || text === 'us' || text === 'metric') return text;
  throw new UsageError(`Cannot read --units: us or metric is expected: ${text}`);
}

/** A whole number within bounds. Throws Misuse. */
export function readWhole(
  flag: string,
  text: string | undefined,
  bounds: { from: number; to: number },
): number | undefined {
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isInteger(value) || value < bounds.from || value > bounds.to) {
    throw new UsageError(
      `Cannot read --${flag}: a whole number from ${bounds.from} to ${bounds.to} is expected: ${text}`,
    );
  }
  return value;
}
