/** `stillwell reading`: readings that people take by hand, over the years, and their reference. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { bucketFlow } from '../../../shared/quantity/bucket-flow.ts';
import type { ReadingGroupAnswer, ReadingRowAnswer } from '../../../shared/api/readings.ts';
import { READING_WORDS, findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { BY_OPTION, JSON_OPTION, NOTE_OPTION, ON_OPTION, PHOTO_OPTION, SERVER_OPTION } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { writeEntry, timeZoneOf } from './write-entry.ts';

type Group = Parameters<CommandBuilder>[0];

export const readingCommand: CommandBuilder = (command, context) => {
  command.description(
    'Record and list readings that were taken by hand: levels, precharge, flow, amps and others. ' +
      'Readings inside an electrical box come from a qualified person who has it open and locked out already. ' +
      'Nobody opens a box for a reading. The server must be running.',
  );
  defineList(command, context);
  defineAdd(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List readings by kind, oldest first. * marks the reference reading.')
    .argument('<well>', 'Name of the well.')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(action((well, { json, server }) => list(io, serverApi(server), well, json === true)));
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description('Record a reading.')
    .argument('<well>', 'Name of the well.')
    .argument('<kind>', `One of ${Object.keys(READING_WORDS).join(', ')}.`)
    .argument('<value>', 'The value with its unit. A flow may be a volume in a time: "5 gal in 48 s".')
    .option('--pump <pump>', 'Pump, if the well has several, such as p2.')
    .option('--where <text>', 'Place, such as "garden tap" or "yellow to black".')
    .option('--with <text>', 'Instrument, such as "level tape".')
    .option('--pin', 'Make it the reference: later readings are compared with it.')
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
  stillwell reading add mill static-level "41 ft" --with "level tape" --pin
  stillwell reading add mill flow "5 gal in 48 s" --where "garden tap"`,
    )
    .action(
      action(async (well, what, value, flags) => {
        const { pump, where, pin, with: instrument } = flags;
        const entry = {
          kind: 'reading',
          what,
          from: 'hand',
          ...valueOf(what, value),
          ...(pump !== undefined && { pump }),
          ...(where !== undefined && { where }),
          ...(instrument !== undefined && { with: instrument }),
          ...(pin && { pinned: true }),
        };
        const api = serverApi(flags.server);
        const saved = await writeEntry(io, api, { well, about: 'reading', entry }, flags);
        const text = `Recorded: ${titleOf(what)}, ${entry.value}.`;
        io.out(flags.json ? JSON.stringify(saved) : text);
        return EXIT.ok;
      }),
    );
}

/**
 * "5 gal in 48 s" is a flow by bucket and watch; the flow is calculated as on the page. @throws
 * UsageError
 */
function valueOf(what: string, text: string): { value: string; bucket?: { volume: string; time: string } } {
  const parts = what === 'flow' ? /^(.+?)\s+in\s+(.+)$/.exec(text.trim()) : null;
  if (!parts) return { value: text };
  const [, volume = '', time = ''] = parts;
  const flow = bucketFlow({ volume, time });
  if (!flow)
    throw new UsageError(`Cannot read "${text}": it must be a volume in a time, such as "5 gal in 48 s"`);
  return { value: flow.text, bucket: { volume, time } };
}

function titleOf(what: string): string {
  return findReadingWords(what)?.title ?? what;
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ groups }, zone] = await Promise.all([api.get('readings', { well }), timeZoneOf(api, well)]);
  if (json) for (const group of groups) io.out(JSON.stringify(group));
  else if (groups.length === 0) io.out(`No readings of ${well} yet.`);
  else for (const group of groups) for (const line of groupLines(group, zone)) io.out(line);
  return EXIT.ok;
}

function groupLines(group: ReadingGroupAnswer, zone: string): string[] {
  const { kind, pump, location, rows } = group;
  const of = [pump === undefined ? '' : `pump ${pump.slice(1)}`, location ?? ''].filter(
    (part) => part !== '',
  );
  const head = `${titleOf(kind)}${of.length === 0 ? '' : `, ${of.join(', ')}`}`;
  return [head, ...rows.map((row) => `  ${localDate(row.atMs, zone)} ${rowWords(row, kind)}`)];
}

function rowWords(
  { value, by, instrument, text, pinned, difference }: ReadingRowAnswer,
  what: string,
): string {
  const format = findReadingWords(what)?.format;
  const beside = [
    difference === undefined || !format
      ? ''
      : `${difference < 0 ? '-' : '+'}${format(Math.abs(difference), 'us')} from the reference`,
    instrument === undefined ? '' : `with ${instrument}`,
    by === undefined ? '' : `by ${by}`,
    text ?? '',
  ].filter((part) => part !== '');
  return `${pinned ? '*' : ' '} ${value}${beside.length === 0 ? '' : `  ${beside.join('; ')}`}`;
}
