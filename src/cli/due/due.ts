/**
 * `stillwell due`: what is due on the wells of a running server, checks that were done, and a plan
 * for what was never recorded.
 */
import { CHECK_OUTCOMES } from '../../../shared/entries/entry-fields.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import {
  byOption,
  isoDate,
  jsonOption,
  noteOption,
  onOption,
  photoOption,
  serverOption,
  wholeNumber,
} from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { actorOf } from '../logbook/write-entry.ts';
import { writeDone } from './due-done.ts';
import { printDue } from './due-list.ts';
import { planDue } from './due-plan.ts';
import { addressRequest, printAddress } from './due-subscribe.ts';
import { writeTable } from './due-table.ts';
import { texts } from './texts.ts';

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
    .description(texts().listTheChecksAndWater)
    .enablePositionalOptions()
    .argument('[well]', texts().nameOfAWellDefault)
    .option('--until <date>', texts().listWhatIsDueUp)
    .option('--days <n>', texts().listWhatIsDueWithin)
    .option('--site <site>', texts().listTheWellsOfOne)
    .option('--subscribe', texts().printTheAddress)
    .option('--new-address', texts().makeANewAddress)
    .option('--remove-address', texts().removeTheAddress)
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfDue)
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
    .description(texts().recordACheck)
    .argument('[well]', texts().nameOfTheWell)
    .argument('[check]', texts().nameOfTheCheck)
    .option('--result <result>', texts().oneOfDefaultRight(CHECK_OUTCOMES.join(', ')))
    .option('--value <value>', texts().valueAsFound)
    .option('--left <value>', texts().valueAsLeft)
    .option('--table <file>', texts().recordManyChecks)
    .option('--dry-run', texts().withTablePrintWhatWould)
    .addOption(onOption())
    .addOption(noteOption())
    .addOption(photoOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfDueDone)
    .action(
      action((well, check, flags) => {
        const api = serverApi(flags.server);
        const { table, by, dryRun } = flags;
        if (table !== undefined && well === undefined)
          return writeTable(io, api, { file: table, by, dryRun: dryRun === true });
        if (well === undefined || check === undefined || table !== undefined)
          throw new UsageError(texts().eitherAWell);
        return writeDone(io, api, { ...flags, well, check });
      }),
    );
}

function definePlan(command: Group, { io, action }: CommandContext): void {
  command
    .command('plan')
    .description(texts().proposeDatesForChecks)
    .option('--from <date>', texts().firstDateDefaultTomorrow, isoDate('--from'))
    .option(
      '--wells-a-day <n>',
      texts().wellsADayDefault(DEFAULT_WELLS_A_DAY),
      wholeNumber('--wells-a-day', WELLS_A_DAY_RANGE),
    )
    .option('--site <site>', texts().planTheWellsOfOne)
    .option('--write', texts().saveTheDates)
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfDuePlan)
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
  if (until !== undefined && days !== undefined) throw new UsageError(texts().untilAndDaysExcludeEach);
  const query = Object.entries({ until, days, site, well }).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, value] as const],
  );
  const answer = await api.get('due', Object.fromEntries(query));
  if (json === true)
    for (const row of [...answer.due, ...answer.notRecorded, ...answer.onHold]) io.out(JSON.stringify(row));
  else printDue(io, answer);
  return EXIT.ok;
}
