/** `stillwell reading`: reference readings that a person brings, over the years, and what is pinned. */
import { localDate } from '../../../shared/api/time-words.ts';
import { flowOf } from '../../../shared/quantity/bucket-flow.ts';
import type { ReadingGroupAnswer, ReadingRowAnswer } from '../../../shared/api/readings.ts';
import { READING_WORDS, readingWords } from '../../../shared/words/reading-words.ts';
import { EXIT, Misuse, type Command, type Io } from './command.ts';
import { readOptions } from './options.ts';
import { serverApi, type ServerApi } from './server-api.ts';
import { ASK_HELP, needed, noMore, WRITE_HELP, WRITE_OPTIONS, writeDown, zoneOf } from './write-down.ts';

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

${ASK_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, what, value, ...rest] = names;
    noMore(rest);
    if (verb === 'list') {
      noMore(what === undefined ? [] : [what]);
      return list(io, api, needed(name, 'reading list WELL'), flags.json === true);
    }
    if (verb !== 'add') throw new Misuse(`Cannot do "${verb ?? ''}": list or add is expected`);
    if (name === undefined || what === undefined || value === undefined)
      throw new Misuse('Three things are expected: stillwell reading add WELL WHAT VALUE');
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
    const kept = await writeDown(io, api, { well: name, about: 'reading', entry }, flags);
    io.out(
      flags.json === true
        ? JSON.stringify(kept)
        : `Written down: ${titleOf(what)}, ${String(kept.body['value'])}.`,
    );
    return EXIT.ok;
  },
};

/** "5 gal in 48 s" is a flow by bucket and watch; what it comes to is reckoned as on the page. @throws Misuse */
function valueOf(what: string, text: string): Record<string, unknown> {
  const parts = what === 'flow' ? /^(.+?)\s+in\s+(.+)$/.exec(text.trim()) : null;
  if (!parts) return { value: text };
  const [, volume = '', time = ''] = parts;
  const flow = flowOf({ volume, time });
  if (!flow) throw new Misuse(`Cannot read "${text}": a volume in a time is expected, as "5 gal in 48 s"`);
  return { value: flow.value, bucket: { volume, time } };
}

function titleOf(what: string): string {
  return readingWords(what)?.title ?? what;
}

async function list(io: Io, api: ServerApi, well: string, json: boolean): Promise<number> {
  const [{ groups }, zone] = await Promise.all([api.ask('readings', { well }), zoneOf(api, well)]);
  if (json) for (const group of groups) io.out(JSON.stringify(group));
  else if (groups.length === 0) io.out(`No reading of ${well} is written down yet.`);
  else for (const group of groups) for (const line of groupLines(group, zone)) io.out(line);
  return EXIT.ok;
}

function groupLines(group: ReadingGroupAnswer, zone: string): string[] {
  const { what, pump, where, rows } = group;
  const of = [pump === undefined ? '' : `pump ${pump.slice(1)}`, where ?? ''].filter((part) => part !== '');
  const head = `${titleOf(what)}${of.length === 0 ? '' : `, ${of.join(', ')}`}`;
  return [head, ...rows.map((row) => `  ${localDate(row.atMs, zone)} ${rowWords(row, what)}`)];
}

function rowWords(
  { value, by, with: instrument, text, pinned, apart }: ReadingRowAnswer,
  what: string,
): string {
  const say = readingWords(what)?.say;
  const beside = [
    apart === undefined || !say
      ? ''
      : `${apart < 0 ? '-' : '+'}${say(Math.abs(apart), 'us')} to the pinned one`,
    instrument === undefined ? '' : `with ${instrument}`,
    by === undefined ? '' : `by ${by}`,
    text ?? '',
  ].filter((part) => part !== '');
  return `${pinned ? '*' : ' '} ${value}${beside.length === 0 ? '' : `  ${beside.join('; ')}`}`;
}
