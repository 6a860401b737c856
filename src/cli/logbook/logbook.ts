/** `stillwell log`: the logbook of a well, a note added, an entry voided. */
import type { Entry } from '../../../shared/entries/entry.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { formatValue } from '../../logbook/export/key-names.ts';
import { EXIT, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { BY_OPTION, JSON_OPTION, ON_OPTION, SERVER_OPTION } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { writeEntry, timeZoneOf } from './write-entry.ts';

type Group = Parameters<CommandBuilder>[0];

export const logCommand: CommandBuilder = (command, context) => {
  command.description(
    'List the logbook of a well, add an entry, or void one. ' +
      'An entry is never changed or deleted. The server must be running.',
  );
  defineList(command, context);
  defineNote(command, context);
  defineVoid(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List all entries in the order in which they were made, each with its id.')
    .argument('<well>', 'Name of the well.')
    .option('--kind <kind>', 'List one kind of entry: reading, check, water-test, work, paper, note …')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(
      action((well, { kind, json, server }) =>
        list(io, serverApi(server), { well, kind, json: json === true }),
      ),
    );
}

function defineNote(command: Group, { io, action }: CommandContext): void {
  command
    .command('note')
    .description('Add a note about what was noticed.')
    .argument('<well>', 'Name of the well.')
    .argument('<text>', 'The note.')
    .option(
      '--event <event>',
      `An event that calls for a water test at once. One of ${WATER_EVENTS.join(', ')}.`,
    )
    .addOption(ON_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText(
      'after',
      `
Events:
${WATER_EVENTS.map((event) => `  ${event.padEnd(18)}${WATER_EVENT_WORDS[event].question}`).join('\n')}

Example:
  stillwell log note mill "Creek over the yard" --event flood --on 2026-11-02`,
    )
    .action(
      action(async (well, text, flags) => {
        const { event, json, server } = flags;
        const entry = { kind: 'note', text, ...(event !== undefined && { event }) };
        const saved = await writeEntry(io, serverApi(server), { well, about: 'note', entry }, flags);
        io.out(json ? JSON.stringify(saved) : 'Recorded.');
        return EXIT.ok;
      }),
    );
}

function defineVoid(command: Group, { io, action }: CommandContext): void {
  command
    .command('void')
    .description('Void an entry that was a mistake. It stays in the logbook, marked as void.')
    .argument('<well>', 'Name of the well.')
    .argument('<entry>', 'Id of the entry, as "log list" prints it.')
    .option('--why <text>', 'Reason.')
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(
      action(async (well, id, flags) => {
        const { why, json, server } = flags;
        const entry = { kind: 'struck', replaces: id, ...(why !== undefined && { text: why }) };
        const saved = await writeEntry(io, serverApi(server), { well, about: 'note', entry }, flags);
        io.out(json ? JSON.stringify(saved) : 'Voided. The entry stays in the logbook, marked as void.');
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
  if (shown.length === 0 && !json) io.out(`No entries of ${well} yet.`);
  return EXIT.ok;
}

function entryWords({ id, kind, atMs, by, replaces, body }: Entry, zone: string, gone: boolean): string {
  const of = replaces === undefined ? '' : ` of ${replaces}`;
  const words = [
    `${kind}${of}`,
    formatValue(body),
    by === undefined ? '' : `by ${by}`,
    gone ? 'void' : '',
  ].filter((part) => part !== '');
  return `${id}  ${localDate(atMs, zone)}  ${words.join('; ')}`;
}
