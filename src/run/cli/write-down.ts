/**
 * What the commands have in common that write into a well's book: the server, who writes, on which day it was so, photos and papers that
 * go with it, and the kept entry as JSON for other programs. They go by the running server's API, as the pages do.
 */
import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { EntryAnswer } from '../../../shared/api/book.ts';
import { entryMoment } from '../../../shared/known/entry-day.ts';
import { LONGEST_NAME, MOST_PAPER_BYTES, MOST_PAPERS } from '../../book/limits.ts';
import { Misuse, type Io } from './command.ts';
import { Refused, USUAL_SERVER, type ServerApi } from './server-api.ts';

/** Options of every command that asks a server. */
export const ASK_OPTIONS = { server: { type: 'string' }, json: { type: 'boolean' } } as const;

/** Options of those that write. */
export const WRITE_OPTIONS = {
  ...ASK_OPTIONS,
  by: { type: 'string' },
  on: { type: 'string' },
  note: { type: 'string' },
  photo: { type: 'string', multiple: true },
} as const;

/** Ends the help of a command. */
export const ASK_HELP = `  --json            one JSON object a line, for other programs
  --server ADDRESS  the running server (${USUAL_SERVER} unless given)`;

export const WRITE_HELP = `  --on DATE         the day on which it was so (2026-11-30; now unless given)
  --note TEXT       a remark
  --photo FILE      a photo or paper that goes with it; once for each
  --by NAME         who did it (your name on this computer unless given)`;

export interface Who {
  by?: string;
}

/** The name that was given, or that this computer knows. */
export function whoOf(flags: { by?: string | undefined }, { env }: Io): Who {
  const by = [flags.by, env['USER'], env['USERNAME']].map((name) => name?.trim()).find(Boolean);
  return by === undefined ? {} : { by };
}

export interface Written {
  well: string;
  /** As src/book/read-entry.ts reads it, without its well. */
  entry: Record<string, unknown>;
  /** What the photos are of. */
  about: string;
}

export interface WrittenWith {
  on?: string | undefined;
  note?: string | undefined;
  photo?: string[] | undefined;
  by?: string | undefined;
}

/** Keeps the photos, then the entry that points to them. @throws Misuse for what the server refuses. */
export async function writeDown(
  io: Io,
  api: ServerApi,
  { well, entry, about }: Written,
  flags: WrittenWith,
): Promise<EntryAnswer> {
  const who = whoOf(flags, io);
  const files = readFiles(flags.photo ?? []);
  const at = await momentOf(api, well, flags.on);
  return asMisuse(async () => {
    const papers = await keepFiles(api, files, { well, about, ...who });
    const whole = {
      ...entry,
      ...(flags.note !== undefined && { text: flags.note }),
      ...(at !== undefined && { at }),
      ...(papers.length > 0 && { papers }),
    };
    return (await api.tell('writeEntry', { well }, { entry: whole, ...who })).entry;
  });
}

/** A day at the well, as the page takes it; undefined is now. @throws Misuse */
async function momentOf(api: ServerApi, well: string, on: string | undefined): Promise<string | undefined> {
  if (on === undefined) return undefined;
  const { timeZone, nowMs } = await api.ask('checks', { well });
  const read = entryMoment(on, { timeZone, nowMs });
  if ('reason' in read) throw new Misuse(`Cannot read --on: ${read.reason}: ${on}`);
  return read.at;
}

export interface PaperFile {
  name: string;
  bytes: Uint8Array;
}

/** All are read before the first is sent. @throws Misuse */
function readFiles(paths: readonly string[]): PaperFile[] {
  if (paths.length > MOST_PAPERS)
    throw new Misuse(`Cannot take ${paths.length} files: ${MOST_PAPERS} at most go with one entry`);
  return paths.map(readFile);
}

export function readFile(path: string): PaperFile {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isFile()) throw new Misuse(`Cannot read ${path}: there is no such file`);
  if (stat.size === 0 || stat.size > MOST_PAPER_BYTES)
    throw new Misuse(
      `Cannot take ${path}: it must have 1 byte to ${MOST_PAPER_BYTES / 2 ** 20} MiB: ${stat.size}`,
    );
  return { name: basename(path).slice(-LONGEST_NAME), bytes: readFileSync(path) };
}

async function keepFiles(
  api: ServerApi,
  files: readonly PaperFile[],
  of: { well: string; about: string } & Who,
): Promise<string[]> {
  const hashes: string[] = [];
  for (const { name, bytes } of files) {
    // The first that is refused stops the rest.
    // oxlint-disable-next-line no-await-in-loop
    const { entry } = await api.addPaper({ ...of, name }, bytes);
    hashes.push(String(entry.body['hash']));
  }
  return [...new Set(hashes)];
}

/** What the server refuses in what was typed is the mistake of who typed it. */
export async function asMisuse<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Refused && [400, 409, 413, 415].includes(error.status))
      throw new Misuse(error.message, { cause: error });
    throw error;
  }
}

/** A name where one is needed. @throws Misuse */
export function needed(name: string | undefined, how: string): string {
  if (name === undefined) throw new Misuse(`A name is expected: stillwell ${how}`);
  return name;
}

/** @throws Misuse for what stands beside the names that are expected. */
export function noMore(rest: readonly string[]): void {
  if (rest.length > 0) throw new Misuse(`Cannot read "${rest[0]}": nothing more is expected`);
}

/** The well's own time zone, in which its days are told. */
export async function zoneOf(api: ServerApi, well: string): Promise<string> {
  return (await api.ask('well', { well })).well.timeZone;
}
