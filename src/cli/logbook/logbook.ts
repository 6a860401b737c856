/** `stillwell book`: all that people wrote down of a well, a note added, an entry struck out. */
import type { EntryAnswer } from '../../../shared/api/logbook.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { formatValue } from '../../logbook/export/key-names.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import {
  SERVER_HELP,
  SERVER_OPTIONS,
  requireName,
  rejectExtra,
  writeEntry,
  timeZoneOf,
} from './write-entry.ts';

const OPTIONS = {
  ...SERVER_OPTIONS,
  by: { type: 'string' },
  on: { type: 'string' },
  event: { type: 'string' },
  why: { type: 'string' },
  kind: { type: 'string' },
} as const;

export const logCommand: Command = {
  name: 'book',
  usage: 'book list WELL | book note WELL TEXT | book strike WELL ENTRY',
  about:
    'The book of a well: all that people wrote down, in the order in which they did; a note; a slip struck out.',
  more: `The server must be running. Nothing in the book is ever changed: a slip is struck out, and stays with who struck it out.

  list WELL          all entries, each with its id
  note WELL TEXT     write down what was noticed
  strike WELL ENTRY  strike an entry out, by its id

  --kind KIND       list: entries of one kind (reading, check, water-test, work, paper, note …)
  --event EVENT     note: what makes the water worth testing at once:
${WATER_EVENTS.map((event) => `                      ${event.padEnd(18)}${WATER_EVENT_WORDS[event].question}`).join('\n')}
  --on DATE         note: the day on which it was so (now unless given)
  --why TEXT        strike: why
  --by NAME         who writes (your name on this computer unless given)

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, text, ...rest] = names;
    rejectExtra(rest);
    const json = flags.json === true;
    if (verb === 'list') {
      rejectExtra(text === undefined ? [] : [text]);
      return list(io, api, { well: requireName(name, 'book list WELL'), kind: flags.kind, json });
    }
    if (verb !== 'note' && verb !== 'strike')
      throw new UsageError(`Cannot do "${verb ?? ''}": list, note or strike is expected`);
    if (name === undefined || text === undefined)
      throw new UsageError(
        `Two things are expected: stillwell book ${verb} WELL ${verb === 'note' ? 'TEXT' : 'ENTRY'}`,
      );
    const { event, why } = flags;
    const entry =
      verb === 'note'
        ? { kind: 'note', text, ...(event !== undefined && { event }) }
        : { kind: 'struck', replaces: text, ...(why !== undefined && { text: why }) };
    const saved = await writeEntry(io, api, { well: name, about: 'note', entry }, flags);
    io.out(
      json ? JSON.stringify(saved) : verb === 'note' ? 'Written down.' : 'Struck out. It stays in the book.',
    );
    return EXIT.ok;
  },
};

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
  if (shown.length === 0 && !json) io.out(`Nothing is written down of ${well} yet.`);
  return EXIT.ok;
}

function entryWords(
  { id, kind, atMs, by, replaces, body }: EntryAnswer,
  zone: string,
  gone: boolean,
): string {
  const of = replaces === undefined ? '' : ` of ${replaces}`;
  const words = [
    `${kind}${of}`,
    formatValue(body),
    by === undefined ? '' : `by ${by}`,
    gone ? 'no longer counts' : '',
  ].filter((part) => part !== '');
  return `${id}  ${localDate(atMs, zone)}  ${words.join('; ')}`;
}
