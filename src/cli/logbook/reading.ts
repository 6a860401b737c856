/** `stillwell reading`: readings that people take by hand, over the years, and their reference. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { bucketFlow } from '../../../shared/quantity/bucket-flow.ts';
import type { ReadingGroupAnswer, ReadingRowAnswer } from '../../../shared/api/readings.ts';
import { READING_WORDS, findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { byOption, jsonOption, noteOption, onOption, photoOption, serverOption } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { writeEntry, timeZoneOf } from './write-entry.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

export const readingCommand: CommandBuilder = (command, context) => {
  command.description(texts().recordAndListReadings);
  defineList(command, context);
  defineAdd(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listReadingsByKindOldest)
    .argument('<well>', texts().nameOfTheWell)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(action((well, { json, server }) => list(io, serverApi(server), well, json === true)));
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description(texts().recordAReading)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<kind>', texts().oneOf(Object.keys(READING_WORDS).join(', ')))
    .argument('<value>', texts().valueWithItsUnit)
    .option('--pump <pump>', texts().pumpIfTheWellHas)
    .option('--where <text>', texts().placeSuchAsGardenTap)
    .option('--with <text>', texts().instrumentSuchAsLevelTape)
    .option('--pin', texts().makeItTheReferenceLater)
    .addOption(onOption())
    .addOption(noteOption())
    .addOption(photoOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfReadingAdd)
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
        const saved = await writeEntry(io, api, { well, about: texts().aboutReading, entry }, flags);
        const text = texts().recordedReading({ title: titleOf(what), value: entry.value });
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
  if (!flow) throw new UsageError(texts().itMustBeAVolume(text));
  return { value: flow.text, bucket: { volume, time } };
}

function titleOf(what: string): string {
  return findReadingWords(what)?.title ?? what;
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ groups }, zone] = await Promise.all([api.get('readings', { well }), timeZoneOf(api, well)]);
  if (json) for (const group of groups) io.out(JSON.stringify(group));
  else if (groups.length === 0) io.out(texts().noReadingsOfYet(well));
  else for (const group of groups) for (const line of groupLines(group, zone)) io.out(line);
  return EXIT.ok;
}

function groupLines(group: ReadingGroupAnswer, zone: string): string[] {
  const { kind, pump, location, rows } = group;
  const of = [pump === undefined ? '' : texts().ofPump(pump.slice(1)), location ?? ''].filter(
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
      : texts().fromTheReference(`${difference < 0 ? '-' : '+'}${format(Math.abs(difference), 'us')}`),
    instrument === undefined ? '' : texts().with(instrument),
    by === undefined ? '' : texts().by(by),
    text ?? '',
  ].filter((part) => part !== '');
  return `${pinned ? '*' : ' '} ${value}${beside.length === 0 ? '' : `  ${beside.join('; ')}`}`;
}
