/** `stillwell packet`: all that is known of a well as one file, and such a file taken in. */
import { randomUUID } from 'node:crypto';
import { existsSync, readFileSync, statSync, writeSync, closeSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { MAX_EXPORT_BYTES } from '../../logbook/entries/limits.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { openDocuments, type DocumentFiles } from '../../store/document-files.ts';
import { openStore } from '../../store/open-store.ts';
import { makePrivateFolder, openNewFile } from '../../store/private-files.ts';
import { StoreError } from '../../store/store-error.ts';
import type { Store } from '../../store/store.ts';
import type { WellExports, ImportResult } from '../../http/deps.ts';
import { openWellExports } from '../../server/export/well-exports.ts';
import { DOCUMENTS_FOLDER, STORE_FILE } from '../../server/server.ts';
import { EXIT, UsageError, type Command, type Io } from '../command.ts';
import { readOptions, readUnits } from '../options.ts';
import { fetchExport, postImport } from './export-server.ts';
import { readSettingsOrUsageError } from '../serve.ts';

export const exportCommand: Command = {
  name: 'packet',
  usage: 'packet WELL OUT.zip|OUT.html | packet import FILE.zip|FILE.html',
  about:
    'Hand a well over: all that was written, measured and told of it as one file, and such a file taken in.',
  more: `The ZIP holds a page that opens without any server, the record for another Stillwell, tables, and the papers. The page alone
(OUT.html) holds the record too, without the papers. A file that is there already is left alone; - writes to standard output as a ZIP.

A packet can be written while the server runs. It is taken in by the server where one runs, and into the data folder where none does.
Nothing that is here is changed by it: entries and acts are known by their ids, and what was new is said.

  --units us|metric  the units of the page (those of the card unless given)
  --same             the well of this name here is the same one, though nothing in the packet is known of it
  --by NAME          who takes it in
  --server URL       ask a server, instead of looking into the data folder
  --settings FILE    the settings file (.stillwell/settings.json unless given)
  --data DIR         the folder where everything is kept`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      settings: { type: 'string' },
      data: { type: 'string' },
      server: { type: 'string' },
      units: { type: 'string' },
      by: { type: 'string' },
      same: { type: 'boolean' },
    });
    const [first, second, ...rest] = names;
    if (first === undefined || second === undefined || rest.length > 0)
      throw new UsageError(
        'Two names are expected: stillwell packet WELL OUT.zip, or: stillwell packet import FILE',
      );
    const { settings } = readSettingsOrUsageError(io.env, flags.settings);
    const place = {
      dataDir: flags.data ?? settings.dataDir,
      ...(flags.server !== undefined && { server: flags.server }),
      defaultServer: `http://${settings.web.host}:${settings.web.port}`,
    };
    if (first !== 'import')
      return await writeExport({ ...place, well: first, out: second, units: readUnits(flags.units) }, io);
    const how = { sameWell: flags.same === true, ...(flags.by !== undefined && { by: flags.by }) };
    return printResult(await importFile(place, readExportFile(second), how), io);
  },
};

interface DataLocation {
  dataDir: string;
  /** Asked for by name. */
  server?: string;
  /** Where the settings say that the server is. */
  defaultServer: string;
}

interface ExportParams extends DataLocation {
  well: string;
  out: string;
  units: UnitSystem | undefined;
}

async function writeExport({ well, out, units, server, dataDir }: ExportParams, io: Io): Promise<number> {
  const isPage = out.endsWith('.html');
  if (!isPage && !out.endsWith('.zip') && out !== '-')
    throw new UsageError(`Cannot write ${out}: its name must end in .zip or .html`);
  if (out !== '-' && existsSync(out))
    throw new Error(`Cannot write ${out}: it is there already; choose another name`);
  if (server !== undefined) {
    writeAll(out, [await fetchExport(server, well, isPage ? 'html' : 'zip', units)]);
  } else {
    if (!existsSync(join(dataDir, STORE_FILE)))
      throw new UsageError(
        `Cannot hand over ${well}: nothing is kept in ${dataDir}. Another folder: --data DIR`,
      );
    await withStore(dataDir, 'secondary', (wellExports, store) => {
      if (!isKnown(store, well))
        throw new UsageError(`Cannot hand over ${well}: no well of this name is kept in ${dataDir}`);
      writeAll(out, isPage ? [Buffer.from(wellExports.page(well, units))] : wellExports.zip(well, units));
    });
  }
  if (out !== '-')
    io.out(`${out}: ${statSync(out).size.toLocaleString('en')} bytes, all that is known of ${well}.`);
  return EXIT.ok;
}

function isKnown(store: Store, well: string): boolean {
  return (
    store.acts({ well, fromMs: 0 }).some((row) => row.well === well) ||
    store.entries(well).length > 0 ||
    store.importedWells().includes(well) ||
    store.derived(well).days.length > 0 ||
    store.nodes().some((row) => row.node === well)
  );
}

/** Under another name until it is whole: half a packet must not look like one. */
function writeAll(out: string, pieces: Iterable<Uint8Array>): void {
  if (out === '-') {
    for (const chunk of pieces) writeWhole(process.stdout.fd, chunk);
    return;
  }
  const partPath = `${out}.part`;
  const file = openNewFile(partPath);
  try {
    for (const chunk of pieces) writeWhole(file, chunk);
  } catch (error) {
    rmSync(partPath, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
  renameSync(partPath, out);
}

function writeWhole(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
}

function readExportFile(path: string): Uint8Array {
  const size = statSync(path, { throwIfNoEntry: false })?.size;
  if (size === undefined) throw new UsageError(`Cannot take packet: there is no file ${path}`);
  if (size > MAX_EXPORT_BYTES)
    throw new UsageError(`Cannot take packet: it may have ${MAX_EXPORT_BYTES / 2 ** 20} MiB at most`);
  return readFileSync(path);
}

/** A server that runs holds the wells in memory: it alone takes a packet in. */
async function importFile(
  location: DataLocation,
  bytes: Uint8Array,
  options: { sameWell: boolean; by?: string },
): Promise<ImportResult> {
  if (location.server !== undefined) return await postImport(location.server, bytes, options);
  try {
    return await withStore(location.dataDir, 'server', (wellExports) =>
      wellExports.importFile(bytes, options),
    );
  } catch (error) {
    if (error instanceof StoreError && error.fault === 'in-use')
      return await postImport(location.defaultServer, bytes, options);
    throw error;
  }
}

async function withStore<T>(
  dataDir: string,
  as: 'server' | 'secondary',
  work: (wellExports: WellExports, store: Store) => T | Promise<T>,
): Promise<T> {
  makePrivateFolder(dataDir);
  const store = openStore(join(dataDir, STORE_FILE), { role: as });
  try {
    const documents = openDocuments(join(dataDir, DOCUMENTS_FOLDER));
    return await work(offlineExports(store, documents), store);
  } finally {
    store.close();
  }
}

/** Where no engine runs: the next start finds what was committed, and a card is an act that it meets then. */
function offlineExports(store: Store, documents: DocumentFiles): WellExports {
  return openWellExports({
    store,
    documents,
    now: Date.now,
    commit: (changes) => store.commit(changes),
    writeCard(card, by) {
      const row = {
        id: randomUUID(),
        atMs: Date.now(),
        ...(by !== undefined && { by }),
        kind: 'card-changed',
      };
      const body = { kind: 'card-changed', card };
      store.commit([{ change: 'act', row: { ...row, well: String(card['well']), body } }]);
    },
  });
}

function printResult(result: ImportResult, io: Io): number {
  if ('problem' in result) {
    io.err(result.confirm === 'same' ? `${result.problem} Say so with --same.` : result.problem);
    return EXIT.usage;
  }
  for (const sentence of result.summary) io.out(sentence);
  return EXIT.ok;
}
