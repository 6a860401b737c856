/**
 * What the commands share that write into a well's logbook: who writes, on which day it was so, and
 * the photos and documents that go with it. They use the API of the running server, as the pages
 * do.
 */
import { basename } from 'node:path';
import type { Entry } from '../../../shared/entries/entry.ts';
import { entryMoment } from '../../../shared/notes/entry-day.ts';
import { MAX_NAME_LENGTH, MAX_DOCUMENT_BYTES, MAX_DOCUMENTS } from '../../../shared/entries/limits.ts';
import { UsageError, type Io } from '../command.ts';
import { readInput } from '../files.ts';
import { ApiError, type ServerApi } from '../server-api.ts';
import { texts } from './texts.ts';

export interface Actor {
  by?: string;
}

/** The name that was given, or that this computer knows. */
export function actorOf(flags: { by?: string | undefined }, { env }: Io): Actor {
  const by = [flags.by, env['USER'], env['USERNAME']].map((name) => name?.trim()).find(Boolean);
  return by === undefined ? {} : { by };
}

export interface EntryParams {
  well: string;
  /** As src/logbook/entries/read-entry.ts reads it, without its well. */
  entry: Record<string, unknown>;
  /** What the photos are of. */
  about: string;
}

export interface EntryFlags {
  on?: string | undefined;
  note?: string | undefined;
  photo?: string[] | undefined;
  by?: string | undefined;
}

/**
 * Keeps the photos, then the entry that points to them. @throws UsageError for what the server
 * refuses.
 */
export async function writeEntry(
  io: Io,
  api: ServerApi,
  { well, entry, about }: EntryParams,
  flags: EntryFlags,
): Promise<Entry> {
  const actor = actorOf(flags, io);
  const files = readFiles(flags.photo ?? []);
  const at = await entryTime(api, well, flags.on);
  return asUsageError(async () => {
    const documents = await uploadFiles(api, files, { well, about, ...actor });
    const whole = {
      ...entry,
      ...(flags.note !== undefined && { text: flags.note }),
      ...(at !== undefined && { at }),
      ...(documents.length > 0 && { papers: documents }),
    };
    return (await api.post('writeEntry', { well }, { entry: whole, ...actor })).entry;
  });
}

/** A day at the well, as the page takes it; undefined is now. @throws UsageError */
async function entryTime(api: ServerApi, well: string, on: string | undefined): Promise<string | undefined> {
  if (on === undefined) return undefined;
  const { timeZone, nowMs } = await api.get('checks', { well });
  const read = entryMoment(on, { timeZone, nowMs });
  if ('reason' in read) throw new UsageError(texts().readOn({ reason: read.reason, on }));
  return read.at;
}

export interface DocumentFile {
  name: string;
  bytes: Uint8Array;
}

/** All are read before the first is sent. @throws UsageError */
function readFiles(paths: readonly string[]): DocumentFile[] {
  if (paths.length > MAX_DOCUMENTS)
    throw new UsageError(
      texts().oneEntryMayHaveAt({ pathsCount: paths.length, maxDocuments: MAX_DOCUMENTS }),
    );
  return paths.map(readFile);
}

export function readFile(path: string): DocumentFile {
  const bytes = readInput(path, MAX_DOCUMENT_BYTES);
  if (bytes.length === 0) throw new UsageError(texts().itIsEmpty(path));
  return { name: basename(path).slice(-MAX_NAME_LENGTH), bytes };
}

async function uploadFiles(
  api: ServerApi,
  files: readonly DocumentFile[],
  fields: { well: string; about: string } & Actor,
): Promise<string[]> {
  const hashes: string[] = [];
  for (const { name, bytes } of files) {
    // The first that is refused stops the rest.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await api.addDocument({ ...fields, name }, bytes);
    hashes.push(entry.body.hash);
  }
  return [...new Set(hashes)];
}

/** What the server refuses in what was typed is the mistake of who typed it. */
export async function asUsageError<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof ApiError && [400, 409, 413, 415].includes(error.status))
      throw new UsageError(error.message, { cause: error });
    throw error;
  }
}

/** The well's own time zone, in which its days are told. */
export async function timeZoneOf(api: ServerApi, well: string): Promise<string> {
  return (await api.get('well', { well })).well.timeZone;
}
