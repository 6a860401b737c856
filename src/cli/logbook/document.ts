/**
 * `stillwell document`: manuals, receipts, the well log and photos, kept with a well, found, and
 * written to a file again.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import {
  searchDocuments,
  documentsAmong,
  fileSizeText,
  fileTypeText,
} from '../../../shared/text/en/documents.ts';
import { EXIT, UsageError, type CommandBuilder, type CommandContext, type Io } from '../command.ts';
import { requireNewFile, writeNewFile } from '../files.ts';
import { BY_OPTION, JSON_OPTION, NOTE_OPTION, SERVER_OPTION } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { asUsageError, readFile, actorOf, timeZoneOf } from './write-entry.ts';

type Group = Parameters<CommandBuilder>[0];

/** Enough of a hash to be told from every other document of a well. */
const SHORT_HASH_CHARS = 12;

export const documentCommand: CommandBuilder = (command, context) => {
  command.description(
    'Keep documents of a well: manuals, receipts, the well log and photos. ' +
      'A document may be PDF, JPEG, PNG, WebP, HEIC or plain text, of 25 MiB at most. ' +
      'Photos inside an electrical box are for people who have it open and locked out already. ' +
      'Nobody opens a box for a photo. The server must be running.',
  );
  defineList(command, context);
  defineAdd(command, context);
  defineGet(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description('List documents, newest first.')
    .argument('<well>', 'Name of the well.')
    .option('--find <words>', 'List the documents that contain all of these words.')
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .action(
      action((well, { find = '', json, server }) =>
        list(io, serverApi(server), { well, find, json: json === true }),
      ),
    );
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description('Keep documents with a well.')
    .argument('<well>', 'Name of the well.')
    .argument('<file...>', 'Files to keep.')
    .option('--about <text>', 'Subject, such as "pump".')
    .option('--name <name>', 'Title. Default: the name of the file.')
    .addOption(NOTE_OPTION)
    .addOption(BY_OPTION)
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell document add mill well-log.pdf --about "well log"')
    .action(
      action((well, files, flags) =>
        add(io, serverApi(flags.server), {
          well,
          files,
          json: flags.json === true,
          name: flags.name,
          fields: {
            ...actorOf(flags, io),
            ...(flags.about !== undefined && { about: flags.about }),
            ...(flags.note !== undefined && { text: flags.note }),
          },
        }),
      ),
    );
}

function defineGet(command: Group, { io, action }: CommandContext): void {
  command
    .command('get')
    .description('Write a document to a file.')
    .argument('<well>', 'Name of the well.')
    .argument('<document>', 'Title of the document, or its hash as "document list" prints it.')
    .argument('<file>', 'File to make. A file that exists is left as it is.')
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell document get mill well-log.pdf copy.pdf')
    .action(action((well, wanted, out, { server }) => get(io, serverApi(server), { well, wanted, out })));
}

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
        ? `No documents of ${well} yet.`
        : `None of ${documents.length} documents contains these words.`,
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
  if (called !== undefined && files.length > 1)
    throw new UsageError('Cannot keep the files: --name names one document, and several files are given');
  const documents = files.map(readFile);
  for (const { name, bytes } of documents) {
    const parts = { well, name: called ?? name, ...fields };
    // The first that is refused stops the rest, and those before it are kept.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await asUsageError(() => api.addDocument(parts, bytes));
    io.out(
      json ? JSON.stringify(entry) : `Saved: ${parts.name}, ${entry.body.hash.slice(0, SHORT_HASH_CHARS)}`,
    );
  }
  return EXIT.ok;
}

interface GetParams {
  well: string;
  wanted: string;
  out: string;
}

async function get(io: Io, api: ServerApi, { well, wanted, out }: GetParams): Promise<number> {
  requireNewFile(out);
  const { documents } = documentsAmong((await api.get('entries', { well })).entries);
  const hashes = new Set(
    documents
      .filter(
        (document) => document.name === wanted || (wanted.length >= 4 && document.hash.startsWith(wanted)),
      )
      .map(({ hash }) => hash),
  );
  const [hash, other] = hashes;
  if (hash === undefined)
    throw new UsageError(
      `Cannot get ${wanted}: ${well} has no such document. Try: stillwell document list ${well}`,
    );
  if (other !== undefined)
    throw new UsageError(`Cannot get ${wanted}: ${well} has several such documents. Name one by its hash`);
  const bytes = await api.document(hash);
  writeNewFile(out, bytes);
  io.out(`${out}: ${bytes.length.toLocaleString('en')} bytes`);
  return EXIT.ok;
}
