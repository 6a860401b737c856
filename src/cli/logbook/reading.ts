/** `stillwell reading`: reference readings that a person brings, over the years, and what is pinned. */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { bucketFlow } from '../../../shared/quantity/bucket-flow.ts';
import type { ReadingGroupAnswer, ReadingRowAnswer } from '../../../shared/api/readings.ts';
import { READING_WORDS, findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import {
  SERVER_HELP,
  requireName,
  rejectExtra,
  WRITE_HELP,
  WRITE_OPTIONS,
  writeEntry,
  timeZoneOf,
} from './write-entry.ts';

const OPTIONS = {
  ...WRITE_OPTIONS,
  pump: { type: 'string' },
  where: { type: 'string' },
  with: { type: 'string' },
  pin: { type: 'boolean' },
} as const;

export const readingCommand: Command = {
  name: 'reading',
  usage: 'reading list WELL | reading add WELL WHAT VALUE',
  about:
    'Readings that somebody took at a well: levels, precharge, flow, amps …; written down, and over the years.',
  more: `The server must be running. Readings from inside an electrical box are results of a qualified person who had it open and locked
out already; nobody opens one for this.

  list WELL            readings by what was read, oldest first; * is pinned: later ones are held against it
  add WELL WHAT VALUE  write one down, with its unit: reading add mill static-level "41 ft"
                       WHAT: ${Object.keys(READING_WORDS).slice(0, 8).join(', ')},
                       ${Object.keys(READING_WORDS).slice(8).join(', ')}
                       flow also by bucket and watch: reading add mill flow "5 gal in 48 s"

  --pump p2         of which pump, where there are several
  --where TEXT      where: "garden tap", "yellow to black"
  --with TEXT       with which instrument
  --pin             later readings are held against this one
${WRITE_HELP}

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, what, value, ...rest] = names;
    rejectExtra(rest);
    if (verb === 'list') {
      rejectExtra(what === undefined ? [] : [what]);
      return list(io, api, requireName(name, 'reading list WELL'), flags.json === true);
    }
    if (verb !== 'add') throw new UsageError(`Cannot do "${verb ?? ''}": list or add is expected`);
    if (name === undefined || what === undefined || value === undefined)
      throw new UsageError('Three things are expected: stillwell reading add WELL WHAT VALUE');
    const { pump, where, pin, with: instrument } = flags;
    const entry = {
      kind: 'reading',
      what,
      from: 'hand',
      ...valueOf(what, value),
      ...(pump !== undefined && { pump }),
      ...(where !== undefined && { where }),
      ...(instrument !== undefined && { with: instrument }),
      ...(pin === true && { pinned: true }),
    };
    const saved = await writeEntry(io, api, { well: name, about: 'reading', entry }, flags);
    io.out(
      flags.json === true
        ? JSON.stringify(saved)
        : `Written down: ${titleOf(what)}, ${String(saved.body['value'])}.`,
    );
    return EXIT.ok;
  },
};

/** "5 gal in 48 s" is a flow by bucket and watch; what it comes to is reckoned as on the page. @throws UsageError */
function valueOf(what: string, text: string): Record<string, unknown> {
  const parts = what === 'flow' ? /^(.+?)\s+in\s+(.+)$/.exec(text.trim()) : null;
  if (!parts) return { value: text };
  const [, volume = '', time = ''] = parts;
  const flow = bucketFlow({ volume, time });
  if (!flow)
    throw new UsageError(`Cannot read "${text}": a volume in a time is expected, as "5 gal in 48 s"`);
  return { value: flow.text, bucket: { volume, time } };
}

function titleOf(what: string): string {
  return findReadingWords(what)?.title ?? what;
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ groups }, zone] = await Promise.all([api.get('readings', { well }), timeZoneOf(api, well)]);
  if (json) for (const group of groups) io.out(JSON.stringify(group));
  else if (groups.length === 0) io.out(`No reading of ${well} is written down yet.`);
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
      : `${difference < 0 ? '-' : '+'}${format(Math.abs(difference), 'us')} to the pinned one`,
    instrument === undefined ? '' : `with ${instrument}`,
    by === undefined ? '' : `by ${by}`,
    text ?? '',
  ].filter((part) => part !== '');
  return `${pinned ? '*' : ' '} ${value}${beside.length === 0 ? '' : `  ${beside.join('; ')}`}`;
}
