/**
 * `stillwell due`: what is due on the wells of a running server, checks that were done, and a plan
 * for what was never recorded.
 */
import { CHECK_OUTCOMES } from '../../../shared/entries/entry-fields.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import {
  BY_OPTION,
  isoDate,
  JSON_OPTION,
  NOTE_OPTION,
  ON_OPTION,
  PHOTO_OPTION,
  SERVER_OPTION,
  wholeNumber,
} from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { actorOf } from '../logbook/write-entry.ts';
import { writeDone } from './due-done.ts';
import { printDue } from './due-list.ts';
import { planDue } from './due-plan.ts';
import { addressRequest, printAddress } from './due-subscribe.ts';
import { writeTable } from './due-table.ts';

type Group = Parameters<CommandBuilder>[0];

const WELLS_A_DAY_RANGE = { from: 1, to: 100 };
const DEFAULT_WELLS_A_DAY = 3;

export const dueCommand: CommandBuilder = (command, context) => {
  defineList(command, context);
  defineDone(command, context);
  definePlan(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .description(
      'List the checks and water tests that are due within a month. ' +
        'Checks that were never recorded follow, each with a proposed date. ' +
        'Checks of a well that is laid up or out of service are on hold. The server must be running.',
    )
    .enablePositionalOptions()
    .argument('[well]', 'Name of a well. Default: all wells.')
    .option('--until <date>', 'List what is due up to this date, as 2027-03-31.')
    .option('--days <n>', 'List what is due within this number of days.')
    .option('--site <site>', 'List the wells of one site.')
    .option('--subscribe', 'Print the address of the calendar for phones on the farm network.')
    .option('--new-address', 'Make a new address. The old one stops working.')
    .option('--remove-address', 'Remove the address.')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Examples:
  stillwell due --days 30
  stillwell due mill --until 2027-03-31
  stillwell due done mill precharge --value "36 psi" --left "38 psi" --result put-right`,
    )
    .action(
      action((well, flags) => {
        const api = serverApi(flags.server);
        const want = addressRequest(flags);
        if (want !== undefined) return printAddress(io, api, { well, want });
        return list(io, api, { ...flags, well });
      }),
    );
}

function defineDone(command: Group, { io, action }: CommandContext): void {
  command
    .command('done')
    .description('Record a check that was done, or many checks with --table.')
    .argument('[well]', 'Name of the well.')
    .argument('[check]', 'Name of the check, as "stillwell due" prints it: precharge, relief-valve …')
    .option('--result <result>', `One of ${CHECK_OUTCOMES.join(', ')}. Default: right.`)
    .option('--value <value>', 'Value as found, with its unit.')
    .option('--left <value>', 'Value as left, with its unit.')
    .option(
      '--table <file>',
      'Record many checks from a table (.csv). Its columns are well, check, on; ' +
        'result, value, left, note and by are optional.',
    )
    .option('--dry-run', 'With --table: print what would be recorded, and record nothing.')
    .addOption(ON_OPTION)
    .addOption(NOTE_OPTION)
    .addOption(PHOTO_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Examples:
  stillwell due done mill precharge --value "36 psi" --left "38 psi" --result put-right
  stillwell due done --table alder-bench-checks.csv --dry-run`,
    )
    .action(
      action((well, check, flags) => {
        const api = serverApi(flags.server);
        const { table, by, dryRun } = flags;
        if (table !== undefined && well === undefined)
          return writeTable(io, api, { file: table, by, dryRun: dryRun === true });
        if (well === undefined || check === undefined || table !== undefined)
          throw new UsageError(
            'Cannot record a check: either a well and a check must be given, or --table. Usage: stillwell due done WELL CHECK',
          );
        return writeDone(io, api, { ...flags, well, check });
      }),
    );
}

function definePlan(command: Group, { io, action }: CommandContext): void {
  command
    .command('plan')
    .description(
      'Propose dates for checks that were never recorded, and save them with --write. ' +
        'Wells of one site follow each other. Saturdays and Sundays are left out.',
    )
    .option('--from <date>', 'First date. Default: tomorrow.', isoDate('--from'))
    .option(
      '--wells-a-day <n>',
      `Wells a day. Default: ${DEFAULT_WELLS_A_DAY}.`,
      wholeNumber('--wells-a-day', WELLS_A_DAY_RANGE),
    )
    .option('--site <site>', 'Plan the wells of one site.')
    .option('--write', 'Save the dates.')
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell due plan --site alder-bench --wells-a-day 2 --write')
    .action(
      action((flags) => {
        const { site, from, wellsADay = DEFAULT_WELLS_A_DAY, json = false, write = false } = flags;
        const actor = actorOf(flags, io);
        return planDue(io, serverApi(flags.server), { site, from, wellsADay, json, write, actor });
      }),
    );
}

interface ListOptions {
  well: string | undefined;
  until?: string | undefined;
  days?: string | undefined;
  site?: string | undefined;
  json?: boolean | undefined;
}

async function list(io: Io, api: ServerApi, { well, until, days, site, json }: ListOptions): Promise<number> {
  if (until !== undefined && days !== undefined)
    throw new UsageError('Cannot list: --until and --days exclude each other. Give one of them');
  const query = Object.entries({ until, days, site, well }).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, value] as const],
  );
  const answer = await api.get('due', Object.fromEntries(query));
  if (json === true)
    for (const row of [...answer.due, ...answer.notRecorded, ...answer.onHold]) io.out(JSON.stringify(row));
  else printDue(io, answer);
  return EXIT.ok;
}
