/** Reads a command's options: an unknown one, or one without its value, is a mistake that is named. */
import { parseArgs, type ParseArgsConfig } from 'node:util';
import { Misuse } from './command.ts';

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
    throw new Misuse(error instanceof Error ? error.message : String(error));
  }
}

/** A whole number within bounds. Throws Misuse. */
export function readWhole(
  flag: string,
  text: string | undefined,
  bounds: { from: number; to: number },
): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!Number.isInteger(value) || value < bounds.from || value > bounds.to) {
    throw new Misuse(
      `Cannot read --${flag}: a whole number from ${bounds.from} to ${bounds.to} is expected: ${text}`,
    );
  }
  return value;
}
