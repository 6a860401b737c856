/** `stillwell paper`: manuals, receipts, the well log, photos: kept with a well, found, and got back. */
import { existsSync, writeFileSync } from 'node:fs';
import { localDate } from '../../../shared/text/en/time-words.ts';
import {
  searchDocuments,
  documentsAmong,
  fileSizeText,
  fileTypeText,
} from '../../../shared/text/en/documents.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import {
  SERVER_HELP,
  SERVER_OPTIONS,
  asUsageError,
  requireName,
  rejectExtra,
  readFile,
  actorOf,
  timeZoneOf,
} from './write-entry.ts';

const OPTIONS = {
  ...SERVER_OPTIONS,
  by: { type: 'string' },
  about: { type: 'string' },
  note: { type: 'string' },
  name: { type: 'string' },
  find: { type: 'string' },
} as const;

/** Enough of a hash to be told from every other paper of a well. */
const SHORT_HASH_CHARS = 12;

export const documentCommand: Command = {
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

${SERVER_HELP}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, OPTIONS);
    const api = serverApi(flags.server);
    const [verb, name, ...rest] = names;
    const json = flags.json === true;
    switch (verb ?? '') {
      case 'list':
        rejectExtra(rest);
        return list(io, api, { well: requireName(name, 'paper list WELL'), find: flags.find ?? '', json });
      case 'add':
        return add(io, api, {
          well: requireName(name, 'paper add WELL FILE …'),
          files: rest,
          json,
          name: flags.name,
          fields: {
            ...actorOf(flags, io),
            ...(flags.about !== undefined && { about: flags.about }),
            ...(flags.note !== undefined && { text: flags.note }),
          },
        });
      case 'get':
        return get(io, api, name, rest);
      default:
        throw new UsageError(`Cannot do "${verb ?? ''}": list, add or get is expected`);
    }
  },
};

async function list(
  io: Io,
  api: ServerApi,
  { well, find, json }: { well: string; find: string; json: boolean },
): Promise<number> {
  const [{ entries }, zone] = await Promise.all([api.get('entries', { well }), timeZoneOf(api, well)]);
  const { documents } = documentsAmong(entries);
  const shown = searchDocuments(documents, find);
  for (const { entry, hash, name, type, bytes, about, text } of shown) {
    if (json) {
      io.out(JSON.stringify(entry));
      continue;
    }
    const details = [`${fileTypeText(type)}, ${fileSizeText(bytes)}`, about, text].filter(
      (part) => part !== undefined,
    );
    io.out(
      `${hash.slice(0, SHORT_HASH_CHARS)}  ${localDate(entry.createdMs, zone)}  ${name}  (${details.join('; ')})`,
    );
  }
  if (!json && shown.length === 0)
    io.out(
      documents.length === 0
        ? `No paper of ${well} is kept yet.`
        : `None of ${documents.length} papers holds these words.`,
    );
  return EXIT.ok;
}

interface AddParams {
  well: string;
  files: readonly string[];
  json: boolean;
  name: string | undefined;
  fields: Record<string, string>;
}

async function add(
  io: Io,
  api: ServerApi,
  { well, files, json, name: called, fields }: AddParams,
): Promise<number> {
  if (files.length === 0) throw new UsageError('A file is expected: stillwell paper add WELL FILE …');
  if (called !== undefined && files.length > 1)
    throw new UsageError('Cannot call several files by one --name');
  const documents = files.map(readFile);
  for (const { name, bytes } of documents) {
    const parts = { well, name: called ?? name, ...fields };
    // The first that is refused stops the rest, and those before it are kept.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await asUsageError(() => api.addDocument(parts, bytes));
    io.out(
      json
        ? JSON.stringify(entry)
        : `Kept: ${parts.name}, ${String(entry.body['hash']).slice(0, SHORT_HASH_CHARS)}`,
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
  rejectExtra(rest);
  if (name === undefined || wanted === undefined || out === undefined)
    throw new UsageError('Three names are expected: stillwell paper get WELL PAPER OUT');
  if (existsSync(out)) throw new Error(`Cannot write ${out}: it is there already; choose another name`);
  const { documents } = documentsAmong((await api.get('entries', { well: name })).entries);
  const hashes = new Set(
    documents
      .filter(
        (document) => document.name === wanted || (wanted.length >= 4 && document.hash.startsWith(wanted)),
      )
      .map(({ hash }) => hash),
  );
  const [hash, other] = hashes;
  if (hash === undefined)
    throw new UsageError(`${name} has no paper ${wanted}. Try: stillwell paper list ${name}`);
  if (other !== undefined) throw new UsageError(`${name} has several papers ${wanted}: name one by its hash`);
  const bytes = await api.document(hash);
  writeFileSync(out, bytes, { flag: 'wx' });
  io.out(`${out}: ${bytes.length.toLocaleString('en')} bytes`);
  return EXIT.ok;
}
