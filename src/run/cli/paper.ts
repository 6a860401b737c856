/** `stillwell paper`: manuals, receipts, the well log, photos: kept with a well, found, and got back. */
import { existsSync, writeFileSync } from 'node:fs';
import { localDate } from '../../../shared/api/time-words.ts';
import { found, papersAmong, sizeWords, typeWords } from '../../../shared/words/papers.ts';
import { EXIT, Misuse, type Command, type Io } from './command.ts';
import { readOptions } from './options.ts';
import { serverApi, type ServerApi } from './server-api.ts';
import { ASK_HELP, ASK_OPTIONS, asMisuse, needed, noMore, readFile, whoOf, zoneOf } from './write-down.ts';

const OPTIONS = {
  ...ASK_OPTIONS,
  by: { type: 'string' },
  about: { type: 'string' },
  note: { type: 'string' },
  name: { type: 'string' },
  find: { type: 'string' },
} as const;

/** Enough of a hash to be told from every other paper of a well. */
const SHORT_HASH = 12;

export const paperCommand: Command = {
  name: 'paper',
  usage: 'paper list WELL | paper add WELL FILE … | paper get WELL PAPER OUT',
  about: 'Papers of a well: manuals, receipts, the well log, photos; kept with it, found, and got back.',
  more: `The server must be running. A paper is PDF, JPEG, PNG, WebP, HEIC or plain text by its content, of 25 MiB at most. A photo inside
an electrical box is for whoever has it open and locked out already; nobody should open one for a photo.

  list WELL           what is kept, newest first
  add WELL FILE …     keep papers
  get WELL PAPER OUT  one of them as a file; PAPER is its hash as the list has it, or its name. A file that is there already is
                      left alone

  --find WORDS        list: those that hold all of these words
  --about TEXT        add: what it is about ("pump"); --note TEXT a remark
  --name NAME         add: what it is called (the file's own name unless given)
  --by NAME           add: who kept it (your name on this computer unless given)

${ASK_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, ...rest] = names;
    const json = flags.json === true;
    switch (verb ?? '') {
      case 'list':
        noMore(rest);
        return list(io, api, { well: needed(name, 'paper list WELL'), find: flags.find ?? '', json });
      case 'add':
        return add(io, api, {
          well: needed(name, 'paper add WELL FILE …'),
          files: rest,
          json,
          called: flags.name,
          said: {
            ...whoOf(flags, io),
            ...(flags.about !== undefined && { about: flags.about }),
            ...(flags.note !== undefined && { text: flags.note }),
          },
        });
      case 'get':
        return get(io, api, name, rest);
      default:
        throw new Misuse(`Cannot do "${verb ?? ''}": list, add or get is expected`);
    }
  },
};

async function list(
  io: Io,
  api: ServerApi,
  { well, find, json }: { well: string; find: string; json: boolean },
): Promise<number> {
  const [{ entries }, zone] = await Promise.all([api.ask('entries', { well }), zoneOf(api, well)]);
  const { papers } = papersAmong(entries);
  const shown = found(papers, find);
  for (const { entry, hash, name, type, bytes, about, text } of shown) {
    if (json) {
      io.out(JSON.stringify(entry));
      continue;
    }
    const said = [`${typeWords(type)}, ${sizeWords(bytes)}`, about, text].filter(
      (part) => part !== undefined,
    );
    io.out(`${hash.slice(0, SHORT_HASH)}  ${localDate(entry.madeMs, zone)}  ${name}  (${said.join('; ')})`);
  }
  if (!json && shown.length === 0)
    io.out(
      papers.length === 0
        ? `No paper of ${well} is kept yet.`
        : `None of ${papers.length} papers holds these words.`,
    );
  return EXIT.ok;
}

interface Adding {
  well: string;
  files: readonly string[];
  json: boolean;
  called: string | undefined;
  said: Record<string, string>;
}

async function add(io: Io, api: ServerApi, { well, files, json, called, said }: Adding): Promise<number> {
  if (files.length === 0) throw new Misuse('A file is expected: stillwell paper add WELL FILE …');
  if (called !== undefined && files.length > 1) throw new Misuse('Cannot call several files by one --name');
  const papers = files.map(readFile);
  for (const { name, bytes } of papers) {
    const parts = { well, name: called ?? name, ...said };
    // The first that is refused stops the rest, and those before it are kept.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await asMisuse(() => api.addPaper(parts, bytes));
    io.out(
      json
        ? JSON.stringify(entry)
        : `Kept: ${parts.name}, ${String(entry.body['hash']).slice(0, SHORT_HASH)}`,
    );
  }
  return EXIT.ok;
}

async function get(
  io: Io,
  api: ServerApi,
  name: string | undefined,
  [wanted, out, ...rest]: readonly string[],
): Promise<number> {
  noMore(rest);
  if (name === undefined || wanted === undefined || out === undefined)
    throw new Misuse('Three names are expected: stillwell paper get WELL PAPER OUT');
  if (existsSync(out)) throw new Error(`Cannot write ${out}: it is there already; choose another name`);
  const { papers } = papersAmong((await api.ask('entries', { well: name })).entries);
  const hashes = new Set(
    papers
      .filter((paper) => paper.name === wanted || (wanted.length >= 4 && paper.hash.startsWith(wanted)))
      .map(({ hash }) => hash),
  );
  const [hash, other] = hashes;
  if (hash === undefined)
    throw new Misuse(`${name} has no paper ${wanted}. Try: stillwell paper list ${name}`);
  if (other !== undefined) throw new Misuse(`${name} has several papers ${wanted}: name one by its hash`);
  const bytes = await api.paper(hash);
  writeFileSync(out, bytes, { flag: 'wx' });
  io.out(`${out}: ${bytes.length.toLocaleString('en')} bytes`);
  return EXIT.ok;
}
