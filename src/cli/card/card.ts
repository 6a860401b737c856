/**
 * `stillwell card`: the cards of a running server's wells: shown, changed, checked, imported and
 * exported.
 */
import type { CommandBuilder, CommandContext } from '../command.ts';
import { byOption, jsonOption, serverOption } from '../options.ts';
import { serverApi } from '../server-api.ts';
import { actorOf } from '../logbook/write-entry.ts';
import { checkCardFile } from './card-check.ts';
import { exportCards } from './card-export.ts';
import { importCards } from './card-import.ts';
import { setCard } from './card-set.ts';
import { listCards, showCard, showHistory } from './card-show.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

export const cardCommand: CommandBuilder = (command, context) => {
  command.description(texts().showChangeCheckImport);
  defineShow(command, context);
  defineSet(command, context);
  defineCheck(command, context);
  defineImport(command, context);
  defineExport(command, context);
};

function defineShow(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listAllWellsWithTheir)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action(({ server, json }) => listCards(io, serverApi(server), json === true)));
  command
    .command('show')
    .description(texts().printTheCard)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(
      action((well, { server, json }) => showCard(io, serverApi(server), { well, json: json === true })),
    );
  command
    .command('history')
    .description(texts().listTheChanges)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(
      action((well, { server, json }) => showHistory(io, serverApi(server), { well, json: json === true })),
    );
}

function defineSet(command: Group, { io, action }: CommandContext): void {
  command
    .command('set')
    .description(texts().changeFieldsOfACard)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<field=value...>', texts().fieldsAsCardShowNames)
    .option('--new', texts().createTheWell)
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfCardSet)
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
    .description(texts().checkAFileOfCards)
    .argument('<file>', texts().cardJsonAList)
    .addOption(jsonOption())
    .action(action((file, { json }) => checkCardFile(io, file, json === true)));
}

function defineImport(command: Group, { io, action }: CommandContext): void {
  command
    .command('import')
    .description(texts().importATableCsv)
    .argument('<file>', texts().tableOrList)
    .option('--skip-bad', texts().skipRowsThatAreWrong)
    .option('--dry-run', texts().printWhatWouldChange)
    .addOption(byOption())
    .addOption(serverOption())
    .addHelpText('after', texts().tableIsUtfWithCommas)
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
    .description(texts().exportAllCardsAsJson)
    .argument('[file]', texts().fileToMakeJson)
    .option('--csv', texts().exportATable)
    .option('--all-columns', texts().includeColumnsThatNoCard)
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfCardExport)
    .action(
      action((file, { csv, allColumns, server }) =>
        exportCards(io, serverApi(server), { file, csv: csv === true, all: allColumns === true }),
      ),
    );
}
