/**
 * The command line as a value: arguments in, exit code out. Commands are defined with commander;
 * only the one that was named is loaded, so that `replay` starts without a broker or a database.
 * Mistakes are told in our own sentences.
 */
import { Command, Help, CommanderError, type CommandUnknownOpts } from '@commander-js/extra-typings';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from './command.ts';
import { errorSentence } from './error-sentence.ts';
import { texts } from './texts.ts';

interface LazyCommand {
  /** Heading in the list of commands. */
  group: () => string;
  summary: () => string;
  load: () => Promise<CommandBuilder>;
}

const RUN = (): string => texts().watchWells;
const WELL = (): string => texts().cardsAndLogbook;
const NODES = (): string => texts().nodesAndNotices;
const FILES = (): string => texts().recordingsAndExports;

const COMMANDS: Record<string, LazyCommand> = {
  serve: {
    group: RUN,
    summary: () => texts().watchYourWellsUntilYou,
    load: async () => (await import('./serve.ts')).serveCommand,
  },
  demo: {
    group: RUN,
    summary: () => texts().showAnInventedFarm,
    load: async () => (await import('./demo.ts')).demoCommand,
  },
  alarms: {
    group: RUN,
    summary: () => texts().listAlarms,
    load: async () => (await import('./alarms.ts')).alarmsCommand,
  },
  card: {
    group: WELL,
    summary: () => texts().showChangeCheckImport,
    load: async () => (await import('./card/card.ts')).cardCommand,
  },
  due: {
    group: WELL,
    summary: () => texts().listTheChecks,
    load: async () => (await import('./due/due.ts')).dueCommand,
  },
  visit: {
    group: WELL,
    summary: () => texts().openAndCloseVisits,
    load: async () => (await import('./logbook/visit.ts')).visitCommand,
  },
  reading: {
    group: WELL,
    summary: () => texts().recordAndListReadings,
    load: async () => (await import('./logbook/reading.ts')).readingCommand,
  },
  water: {
    group: WELL,
    summary: () => texts().recordAndListWaterTests,
    load: async () => (await import('./logbook/water.ts')).waterCommand,
  },
  document: {
    group: WELL,
    summary: () => texts().keepManualsReceiptsWellLogs,
    load: async () => (await import('./logbook/document.ts')).documentCommand,
  },
  note: {
    group: WELL,
    summary: () => texts().announceGuestsIrrigationAShutdown,
    load: async () => (await import('./logbook/note.ts')).noteCommand,
  },
  log: {
    group: WELL,
    summary: () => texts().listTheLogbookAdd,
    load: async () => (await import('./logbook/logbook.ts')).logCommand,
  },
  labels: {
    group: WELL,
    summary: () => texts().printLabelsForTheEquipment,
    load: async () => (await import('./logbook/labels.ts')).labelsCommand,
  },
  node: {
    group: NODES,
    summary: () => texts().manageTheCredentialsOfNodes,
    load: async () => (await import('./node.ts')).nodeCommand,
  },
  refused: {
    group: NODES,
    summary: () => texts().listTheMessagesThatWere,
    load: async () => (await import('./refused.ts')).refusedCommand,
  },
  'send-test': {
    group: NODES,
    summary: () => texts().sendATestNotice,
    load: async () => (await import('./send-test.ts')).sendTestCommand,
  },
  record: {
    group: FILES,
    summary: () => texts().recordWhatNodesSend,
    load: async () => (await import('./record.ts')).recordCommand,
  },
  replay: {
    group: FILES,
    summary: () => texts().printTheCyclesDaysBaselines,
    load: async () => (await import('./replay.ts')).replayCommand,
  },
  export: {
    group: FILES,
    summary: () => texts().writeEverythingKnownAbout,
    load: async () => (await import('./logbook/export.ts')).exportCommand,
  },
  import: {
    group: FILES,
    summary: () => texts().readAnExportOfAnother,
    load: async () => (await import('./logbook/import.ts')).importCommand,
  },
};

/** Columns of a help text. */
const HELP_WIDTH = 96;

/**
 * Runs one command line, without the name of the program. Returns the exit code.
 * @throws UsageError for a mistake in what was typed, with one sentence.
 */
export async function runCommandLine(args: readonly string[], io: Io, version: string): Promise<number> {
  // "help card set" reads as people ask it.
  const words = args[0] === 'help' ? [...args.slice(1), '--help'] : [...args];
  const result = { exit: EXIT.ok as number };
  const program = await newProgram(io, { version, result, isNeeded: (name) => name === words[0] });
  try {
    await program.parseAsync(words, { from: 'user' });
    return result.exit;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    if (error.exitCode === 0) return EXIT.ok;
    throw new UsageError(mistake(error, namedCommand(program, words)), { cause: error });
  }
}

/** Runs one command line; what goes wrong is said on stderr in one line. Returns the exit code. */
export async function runToExitCode(args: readonly string[], io: Io, version: string): Promise<number> {
  try {
    return await runCommandLine(args, io, version);
  } catch (error) {
    io.err(errorSentence(error));
    return error instanceof UsageError ? EXIT.usage : EXIT.failed;
  }
}

interface ProgramParams {
  version: string;
  result: { exit: number };
  /** Whether this command is to be loaded. The others are only listed. */
  isNeeded: (name: string) => boolean;
}

export async function newProgram(
  io: Io,
  { version, result, isNeeded }: ProgramParams,
): Promise<CommandUnknownOpts> {
  const context: CommandContext = {
    io,
    action:
      (work) =>
      async (...args) => {
        rejectExtraWords(args.at(-1));
        result.exit = await work(...args);
      },
  };
  const program = new Command('stillwell')
    .description(texts().stillwellWatchesWaterWells)
    .version(version, '--version', texts().printTheVersion)
    .helpOption('-h, --help', texts().printThisHelp)
    .helpCommand(false)
    .enablePositionalOptions()
    .allowExcessArguments()
    .configureHelp({
      helpWidth: HELP_WIDTH,
      styleTitle: (title) => texts().helpTitles[title] ?? title,
      styleUsage: withOurWords,
      subcommandTerm: (command) => withOurWords(new Help().subcommandTerm(command)),
      optionDescription: ({ description }) => description,
    })
    .configureOutput({
      writeOut: (text) => io.out(text.trimEnd()),
      outputError: () => undefined,
    })
    .exitOverride()
    .addHelpText('after', texts().helpForOneCommandStillwell);
  for (const [name, { group, summary, load }] of Object.entries(COMMANDS)) {
    const command = program.command(name).summary(summary()).description(summary()).helpGroup(group());
    // Loading one after the other costs nothing: only one is needed.
    // oxlint-disable-next-line no-await-in-loop
    if (isNeeded(name)) defineGroup(command, await load(), context);
  }
  program.action((_options, command) => {
    result.exit = EXIT.usage;
    const [word] = command.args;
    if (word === undefined) command.outputHelp();
    else throw new UsageError(texts().itMustBeOne({ word, commands: Object.keys(COMMANDS).join(', ') }));
  });
  return program;
}

/** A command that has only commands of its own needs one of them. */
function defineGroup(command: Command, build: CommandBuilder, context: CommandContext): void {
  build(command, context);
  const names = command.commands.map((one) => one.name());
  if (names.length === 0 || command.registeredArguments.length > 0) return;
  // The word that is wrong is told before options that belong to no command.
  command.allowUnknownOption().action((_options, { args: [word] }) => {
    const path = pathOf(command);
    throw new UsageError(
      word === undefined
        ? texts().oneOfMustFollowTry({ path, names: names.join(', ') })
        : texts().itMustBeOneOfTry({ path, word, names: names.join(', ') }),
    );
  });
}

/** Commander would say how many words are too many; a person wants to know which. */
function rejectExtraWords(command: unknown): void {
  if (!(command instanceof Command)) return;
  const { args, registeredArguments } = command;
  if (registeredArguments.at(-1)?.variadic === true) return;
  const extra = args[registeredArguments.length];
  if (extra !== undefined)
    throw new UsageError(texts().nothingMoreMayFollowUsage({ extra, usageOf: usageOf(command) }));
}

function namedCommand(program: CommandUnknownOpts, words: readonly string[]): CommandUnknownOpts {
  let command = program;
  for (const word of words) {
    const next = command.commands.find((one) => one.name() === word);
    if (!next) break;
    command = next;
  }
  return command;
}

function pathOf(command: CommandUnknownOpts): string {
  return command.parent ? `${pathOf(command.parent)} ${command.name()}` : command.name();
}

function usageOf(command: CommandUnknownOpts): string {
  return `${pathOf(command)} ${command.usage()}`.replace(/ \[options\]( \[command\])?/, '');
}

/**
 * Commander's codes and messages (its lib/command.js) as our sentences: what cannot be done, the
 * rule, and what helps.
 */
function mistake({ code, message }: CommanderError, command: CommandUnknownOpts): string {
  const [, quoted = ''] = /'([^']*)'/.exec(message) ?? [];
  const [, suggestion] = /\(Did you mean (.*)\?\)/.exec(message) ?? [];
  const [flag] = quoted.split(' ');
  const path = pathOf(command);
  const remedy = suggestion === undefined ? texts().tryHelp(path) : texts().didYouMean(suggestion);
  switch (code) {
    case 'commander.unknownOption':
      return texts().noSuchOption({ option: quoted, path, remedy });
    case 'commander.optionMissingArgument':
      return texts().valueMustFollow({ option: flag ?? '', remedy });
    case 'commander.missingArgument':
      return texts().argumentMustBeGiven({ path, argument: quoted, usage: usageOf(command) });
    default:
      return texts().cannotRun({
        path,
        reason: message.replace(/^error: /, '').replaceAll('\n', ' '),
        remedy,
      });
  }
}

/** Usage as the library writes it: "node [options] [command]". */
function withOurWords(usage: string): string {
  return usage.replace('[options]', texts().anyOptions).replace('[command]', texts().anyCommand);
}
