/**
 * The command line in this process, as it is typed: exit code, and what is printed on both streams.
 */
import { runCommandLine } from '../../src/cli/program.ts';

export interface Ran {
  code: number;
  out: string[];
  err: string[];
}

/** Rejects with what the program would print on stderr. */
export async function runCli(args: readonly string[], env: Record<string, string> = {}): Promise<Ran> {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await runCommandLine(
    args,
    {
      out: (line) => out.push(...line.split('\n')),
      err: (line) => err.push(line),
      env,
      progress: false,
    },
    '0.0.0',
  );
  return { code, out, err };
}
