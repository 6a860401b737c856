/** `stillwell log`: the logbook of a well, a note added, an entry voided. */
import type { Entry } from '../../../shared/entries/entry.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { formatValue } from '../../logbook/export/key-names.ts';
import { EXIT, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { byOption, jsonOption, onOption, serverOption } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { writeEntry, timeZoneOf } from './write-entry.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

export const logCommand: CommandBuilder = (command, context) => {
  command.description(texts().listTheLogbook);
  defineList(command, context);
  defineNote(command, context);
  defineVoid(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listAllEntries)
    .argument('<well>', texts().nameOfTheWell)
    .option('--kind <kind>', texts().listOneKindOfEntry)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(
      action((well, { kind, json, server }) =>
        list(io, serverApi(server), { well, kind, json: json === true }),
      ),
    );
}

function defineNote(command: Group, { io, action }: CommandContext): void {
  command
    .command('note')
    .description(texts().addANoteAboutWhat)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<text>', texts().note)
    .option('--event <event>', texts().eventThatCalls(WATER_EVENTS.join(', ')))
    .addOption(onOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText(
      'after',
      texts().eventsAndExampleOfLogNote(
        WATER_EVENTS.map((event) => `  ${event.padEnd(18)}${WATER_EVENT_WORDS[event].question}`).join('\n'),
      ),
    )
    .action(
      action(async (well, text, flags) => {
        const { event, json, server } = flags;
        const entry = { kind: 'note', text, ...(event !== undefined && { event }) };
        const saved = await writeEntry(
          io,
          serverApi(server),
          { well, about: texts().aboutNote, entry },
          flags,
        );
        io.out(json ? JSON.stringify(saved) : texts().recorded);
        return EXIT.ok;
      }),
    );
}

function defineVoid(command: Group, { io, action }: CommandContext): void {
  command
    .command('void')
    .description(texts().voidAnEntry)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<entry>', texts().idOfTheEntry)
    .option('--why <text>', texts().reason)
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(
      action(async (well, id, flags) => {
        const { why, json, server } = flags;
        const entry = { kind: 'struck', replaces: id, ...(why !== undefined && { text: why }) };
        const saved = await writeEntry(
          io,
          serverApi(server),
          { well, about: texts().aboutNote, entry },
          flags,
        );
        io.out(json ? JSON.stringify(saved) : texts().voidedTheEntryStays);
        return EXIT.ok;
      }),
    );
}

interface Listing {
  well: string;
  kind: string | undefined;
  json: boolean;
}

async function list(io: Io, api: ServerApi, { well, kind, json }: Listing): Promise<number> {
  const [{ entries }, zone] = await Promise.all([api.get('entries', { well }), timeZoneOf(api, well)]);
  const shown = entries.filter((entry) => kind === undefined || entry.kind === kind);
  const replaced = new Set(entries.flatMap(({ replaces }) => replaces ?? []));
  for (const entry of shown)
    io.out(json ? JSON.stringify(entry) : entryWords(entry, zone, replaced.has(entry.id)));
  if (shown.length === 0 && !json) io.out(texts().noEntriesOfYet(well));
  return EXIT.ok;
}

function entryWords({ id, kind, atMs, by, replaces, body }: Entry, zone: string, gone: boolean): string {
  const words = [
    replaces === undefined ? kind : texts().kindOf({ kind, id: replaces }),
    formatValue(body),
    by === undefined ? '' : texts().by(by),
    gone ? texts().void : '',
  ].filter((part) => part !== '');
  return `${id}  ${localDate(atMs, zone)}  ${words.join('; ')}`;
}
