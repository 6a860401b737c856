/**
 * What the commands have in common that write into a well's book: the server, who writes, on which day it was so, photos and papers that
 * go with it, and the kept entry as JSON for other programs. They go by the running server's API, as the pages do.
 */
import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { EntryAnswer } from '../../../shared/api/logbook.ts';
import { entryMoment } from '../../../shared/known/entry-day.ts';
import { MAX_NAME_LENGTH, MAX_DOCUMENT_BYTES, MAX_DOCUMENTS } from '../../logbook/entries/limits.ts';
import { UsageError, type Io } from '../command.ts';
import { ApiError, DEFAULT_SERVER, type ServerApi } from '../server-api.ts';

/** Options of every command that asks a server. */
export const SERVER_OPTIONS = { server: { type: 'string' }, json: { type: 'boolean' } } as const;

/** Options of those that write. */
export const WRITE_OPTIONS = {
  ...SERVER_OPTIONS,
  by: { type: 'string' },
  on: { type: 'string' },
  note: { type: 'string' },
  photo: { type: 'string', multiple: true },
} as const;

/** Ends the help of a command. */
export const SERVER_HELP = `  --json            one JSON object a line, for other programs
  --server ADDRESS  the running server (${DEFAULT_SERVER} unless given)`;

export const WRITE_HELP = `  --on DATE         the day on which it was so (2026-11-30; now unless given)
  --note TEXT       a remark
  --photo FILE      a photo or paper that goes with it; once for each
  --by NAME         who did it (your name on this computer unless given)`;

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

/** Keeps the photos, then the entry that points to them. @throws UsageError for what the server refuses. */
export async function writeEntry(
  io: Io,
  api: ServerApi,
  { well, entry, about }: EntryParams,
  flags: EntryFlags,
): Promise<EntryAnswer> {
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
  if ('reason' in read) throw new UsageError(`Cannot read --on: ${read.reason}: ${on}`);
  return read.at;
}

export interface DocumentFile {
  name: string;
  bytes: Uint8Array;
}

/** All are read before the first is sent. @throws UsageError */
function readFiles(paths: readonly string[]): DocumentFile[] {
  if (paths.length > MAX_DOCUMENTS)
    throw new UsageError(`Cannot take ${paths.length} files: ${MAX_DOCUMENTS} at most go with one entry`);
  return paths.map(readFile);
}

export function readFile(path: string): DocumentFile {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isFile()) throw new UsageError(`Cannot read ${path}: there is no such file`);
  if (stat.size === 0 || stat.size > MAX_DOCUMENT_BYTES)
    throw new UsageError(
      `Cannot take ${path}: it must have 1 byte to ${MAX_DOCUMENT_BYTES / 2 ** 20} MiB: ${stat.size}`,
    );
  return { name: basename(path).slice(-MAX_NAME_LENGTH), bytes: readFileSync(path) };
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
    hashes.push(String(entry.body['hash']));
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

/** A name where one is needed. @throws UsageError */
export function requireName(name: string | undefined, how: string): string {
  if (name === undefined) throw new UsageError(`A name is expected: stillwell ${how}`);
  return name;
}

/** @throws UsageError for what stands beside the names that are expected. */
export function rejectExtra(rest: readonly string[]): void {
  if (rest.length > 0) throw new UsageError(`Cannot read "${rest[0]}": nothing more is expected`);
}

/** The well's own time zone, in which its days are told. */
export async function timeZoneOf(api: ServerApi, well: string): Promise<string> {
  return (await api.get('well', { well })).well.timeZone;
}
