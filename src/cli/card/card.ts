/**
 * `stillwell card`: the cards of a running server's wells: shown, changed, checked, imported and
 * exported.
 */
import type { CommandBuilder, CommandContext } from '../command.ts';
import { BY_OPTION, JSON_OPTION, SERVER_OPTION } from '../options.ts';
import { serverApi } from '../server-api.ts';
import { actorOf } from '../logbook/write-entry.ts';
import { checkCardFile } from './card-check.ts';
import { exportCards } from './card-export.ts';
import { importCards } from './card-import.ts';
import { setCard } from './card-set.ts';
import { listCards, showCard, showHistory } from './card-show.ts';

type Group = Parameters<CommandBuilder>[0];

const WELL = 'Name of the well.';

export const cardCommand: CommandBuilder = (command, context) => {
  command.description(
    'Show, change, check, import and export cards. A card holds what is known about a well. ' +
      'The server must be running, except for "check".',
  );
  defineShow(command, context);
  defineSet(command, context);
  defineCheck(command, context);
  defineImport(command, context);
  defineExport(command, context);
};

function defineShow(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List all wells, with their state and the date of their card.')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action(({ server, json }) => listCards(io, serverApi(server), json === true)));
  command
    .command('show')
    .description('Print the card of a well, the questions about it, and the measured values.')
    .argument('<well>', WELL)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(
      action((well, { server, json }) => showCard(io, serverApi(server), { well, json: json === true })),
    );
  command
    .command('history')
    .description('List the changes of a card: who changed what, and when.')
    .argument('<well>', WELL)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(
      action((well, { server, json }) => showHistory(io, serverApi(server), { well, json: json === true })),
    );
}

function defineSet(command: Group, { io, action }: CommandContext): void {
  command
    .command('set')
    .description('Change fields of a card. A field with nothing after its = is removed.')
    .argument('<well>', WELL)
    .argument('<field=value...>', 'Fields as "card show" names them. Write quantities with their unit.')
    .option('--new', 'Create the well.')
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Examples:
  stillwell card set mill --new timeZone=America/Denver switch=40/60
  stillwell card set mill pump.motor="3/4 hp" tank.precharge="38 psi" tank.maker=`,
    )
    .action(
      action((well, fields, flags) =>
        setCard(io, serverApi(flags.server), {
          well,
          fields,
          isNew: flags.new === true,
          json: flags.json === true,
          ...actorOf(flags, io),
        }),
      ),
    );
}

function defineCheck(command: Group, { io, action }: CommandContext): void {
  command
    .command('check')
    .description('Check a file of cards without a server: what cannot be read, and what looks wrong.')
    .argument('<file>', 'A card (.json), a list of cards (.json) or a table (.csv).')
    .addOption(JSON_OPTION)
    .action(action((file, { json }) => checkCardFile(io, file, json === true)));
}

function defineImport(command: Group, { io, action }: CommandContext): void {
  command
    .command('import')
    .description(
      'Import a table (.csv) or a list of whole cards (.json). ' +
        'If a row is wrong, nothing is imported, except with --skip-bad.',
    )
    .argument('<file>', 'The table or list.')
    .option('--skip-bad', 'Skip rows that are wrong, and import the others.')
    .option('--dry-run', 'Print what would change, and change nothing.')
    .addOption(BY_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
A table is UTF-8 with commas (RFC 4180): one row for each well, one column for each field.
Columns have the names that "card show" prints: well, site, pump.motor, switch, tank.precharge.
An empty cell leaves the field as it is. A single - removes it. Lists are separated by "; ".
A well with several pumps has columns such as pumps.p1.pump.motor and pumps.p2.pump.motor.

Example:
  stillwell card import alder-bench.csv --dry-run`,
    )
    .action(
      action((file, flags) =>
        importCards(io, serverApi(flags.server), {
          file,
          skipBad: flags.skipBad === true,
          dryRun: flags.dryRun === true,
          ...actorOf(flags, io),
        }),
      ),
    );
}

function defineExport(command: Group, { io, action }: CommandContext): void {
  command
    .command('export')
    .description('Export all cards as JSON, or as a table that "card import" reads.')
    .argument('[file]', 'File to make (.json or .csv). A file that exists is left as it is. Default: stdout.')
    .option('--csv', 'Export a table.')
    .option('--all-columns', 'Include columns that no card fills.')
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell card export alder-bench.csv')
    .action(
      action((file, { csv, allColumns, server }) =>
        exportCards(io, serverApi(server), { file, csv: csv === true, all: allColumns === true }),
      ),
    );
}
