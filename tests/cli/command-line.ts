/**
 * The command line in this process, as it is typed: exit code, and what is printed on both streams.
 */
import { runCommandLine, runToExitCode } from '../../src/cli/program.ts';

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

/** As `stillwell` in a process of its own: mistakes and failures are an exit code and a line. */
export async function runHere(args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const [out, err]: [string[], string[]] = [[], []];
  const io = {
    out: (line: string) => out.push(line),
    err: (line: string) => err.push(line),
    env: {},
    progress: false,
  };
  const code = await runToExitCode(args, io, '0.0.0');
  return { code, out: out.join('\n'), err: err.join('\n') };
}
