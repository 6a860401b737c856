#!/usr/bin/env node
/** The program: the only reader of the environment. What it can do is in cli/program.ts. */
import { EXIT, type Io } from './cli/command.ts';
import { runToExitCode } from './cli/program.ts';
import { programVersion } from './server/install-paths.ts';

const io: Io = {
  out: (line) => process.stdout.write(`${line}\n`),
  err: (line) => process.stderr.write(`${line}\n`),
  env: process.env,
  progress: process.stderr.isTTY,
};

// Whatever is written is the user's own: data hold hashes of passwords, names, addresses and
// photos. Windows knows no such thing.
if (process.platform !== 'win32') process.umask(0o077);

// A reader that has seen enough (`stillwell replay … | head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) =>
  process.exit(error.code === 'EPIPE' ? EXIT.ok : EXIT.failed),
);

process.exitCode = await runToExitCode(process.argv.slice(2), io, programVersion());
