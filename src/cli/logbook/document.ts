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
import { byOption, jsonOption, noteOption, serverOption } from '../options.ts';
import { serverApi, type ServerApi } from '../server-api.ts';
import { asUsageError, readFile, actorOf, timeZoneOf } from './write-entry.ts';
import { texts } from './texts.ts';

type Group = Parameters<CommandBuilder>[0];

/** Enough of a hash to be told from every other document of a well. */
const SHORT_HASH_CHARS = 12;

export const documentCommand: CommandBuilder = (command, context) => {
  command.description(texts().keepDocumentsOfAWell);
  defineList(command, context);
  defineAdd(command, context);
  defineGet(command, context);
};

function defineList(command: Group, { io, action }: CommandContext): void {
  command
    .command('list')
    .description(texts().listDocumentsNewestFirst)
    .argument('<well>', texts().nameOfTheWell)
    .option('--find <words>', texts().listTheDocumentsThatContain)
    .addOption(jsonOption())
    .addOption(serverOption())
    .action(
      action((well, { find = '', json, server }) =>
        list(io, serverApi(server), { well, find, json: json === true }),
      ),
    );
}

function defineAdd(command: Group, { io, action }: CommandContext): void {
  command
    .command('add')
    .description(texts().keepDocumentsWithAWell)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<file...>', texts().filesToKeep)
    .option('--about <text>', texts().subjectSuchAsPump)
    .option('--name <name>', texts().titleDefaultTheName)
    .addOption(noteOption())
    .addOption(byOption())
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfDocumentAdd)
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
    .description(texts().writeADocument)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<document>', texts().titleOfTheDocument)
    .argument('<file>', texts().fileToMakeAFile)
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfDocumentGet)
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
        ? texts().noDocumentsOfYet(well)
        : texts().noneOfDocumentsContainsThese(documents.length),
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
  if (called !== undefined && files.length > 1) throw new UsageError(texts().nameNamesOneDocument);
  const documents = files.map(readFile);
  for (const { name, bytes } of documents) {
    const parts = { well, name: called ?? name, ...fields };
    // The first that is refused stops the rest, and those before it are kept.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await asUsageError(() => api.addDocument(parts, bytes));
    io.out(
      json
        ? JSON.stringify(entry)
        : texts().saved({ name: parts.name, hash: entry.body.hash.slice(0, SHORT_HASH_CHARS) }),
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
  if (hash === undefined) throw new UsageError(texts().hasNoSuchDocumentTry({ wanted, well }));
  if (other !== undefined) throw new UsageError(texts().hasSeveralSuchDocumentsName({ wanted, well }));
  const bytes = await api.document(hash);
  writeNewFile(out, bytes);
  io.out(texts().bytes({ out, bytesCount: bytes.length }));
  return EXIT.ok;
}
