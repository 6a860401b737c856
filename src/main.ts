#!/usr/bin/env node
/**
 * The command line, and the only reader of the environment. Each command is loaded when it is asked for, so that `replay` starts
 * without a broker or a database.
 */
import { EXIT, UsageError, type Command, type Io } from './cli/command.ts';

const COMMANDS: Record<string, () => Promise<Command>> = {
  demo: async () => (await import('./cli/demo.ts')).demoCommand,
  serve: async () => (await import('./cli/serve.ts')).serveCommand,
  due: async () => (await import('./cli/due/due.ts')).dueCommand,
  card: async () => (await import('./cli/card/card.ts')).cardCommand,
  labels: async () => (await import('./cli/logbook/labels.ts')).labelsCommand,
  visit: async () => (await import('./cli/logbook/visit.ts')).visitCommand,
  reading: async () => (await import('./cli/logbook/reading.ts')).readingCommand,
  water: async () => (await import('./cli/logbook/water.ts')).waterCommand,
  paper: async () => (await import('./cli/logbook/document.ts')).documentCommand,
  say: async () => (await import('./cli/logbook/note.ts')).noteCommand,
  book: async () => (await import('./cli/logbook/logbook.ts')).logCommand,
  node: async () => (await import('./cli/node.ts')).nodeCommand,
  'send-test': async () => (await import('./cli/send-test.ts')).sendTestCommand,
  record: async () => (await import('./cli/record.ts')).recordCommand,
  replay: async () => (await import('./cli/replay.ts')).replayCommand,
  packet: async () => (await import('./cli/logbook/export.ts')).exportCommand,
};

const io: Io = {
  out: (line) => process.stdout.write(`${line}\n`),
  err: (line) => process.stderr.write(`${line}\n`),
  env: process.env,
  progress: process.stderr.isTTY,
};

async function help(): Promise<void> {
  io.out(
    'Stillwell watches water wells through a current clamp and a pressure transducer, and says in time when one is no longer',
  );
  io.out('as it always was. It only watches: it cannot switch a pump, and it is no safety device.\n');
  for (const load of Object.values(COMMANDS)) {
    const { usage, about } = await load();
    io.out(`  stillwell ${usage}\n      ${about}`);
  }
  io.out('\nMore of one command: stillwell COMMAND --help');
  io.out('In the folder of a fresh clone write "node dist/main.js" for "stillwell".');
}

async function main(args: string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    await help();
    return name === undefined ? EXIT.usage : EXIT.ok;
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!load) {
    io.err(
      `There is no command "${name}". Commands: ${Object.keys(COMMANDS).join(', ')}. Try: stillwell --help`,
    );
    return EXIT.usage;
  }
  const command = await load();
  if (rest.includes('--help') || rest.includes('-h')) {
    io.out(`stillwell ${command.usage}\n\n${command.about}\n\n${command.more}`);
    return EXIT.ok;
  }
  return command.run(rest, io);
}

// Whatever is written is the user's own: data hold hashes of passwords, names, addresses and photos. Windows knows no such thing.
if (process.platform !== 'win32') process.umask(0o077);

// A reader that has seen enough (`stillwell replay … | head`) is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) =>
  process.exit(error.code === 'EPIPE' ? EXIT.ok : EXIT.failed),
);

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  io.err(error instanceof Error ? error.message : String(error));
  process.exitCode = error instanceof UsageError ? EXIT.usage : EXIT.failed;
}
