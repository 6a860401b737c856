/** `stillwell export`: everything that is known about a well as one file. */
import { closeSync, existsSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { fileError, systemReason } from '../../../shared/text/en/system-reasons.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { openNewFile } from '../../store/private-files.ts';
import type { Store } from '../../store/store.ts';
import { STORE_FILE } from '../../server/server.ts';
import { EXIT, UsageError, type CommandBuilder, type Io } from '../command.ts';
import { requireNewFile } from '../files.ts';
import { DATA_OPTION, JSON_OPTION, readUnits, SETTINGS_OPTION } from '../options.ts';
import { locate } from '../place.ts';
import { fetchExport } from './export-server.ts';
import { withStore } from './export-store.ts';

export const exportCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(
      'Write everything known about a well to one file, for its next owner or another server. ' +
        'A .zip holds a page that opens without a server, the record, tables and documents. ' +
        'An .html holds the page and the record, without documents. The server may be running.',
    )
    .argument('<well>', 'Name of the well.')
    .argument(
      '<file>',
      'File to make (.zip or .html). A file that exists is left as it is. - writes a ZIP to stdout.',
    )
    .option('--units <units>', 'us or metric, for the page. Default: the units of the card.', readUnits)
    .addOption(JSON_OPTION)
    .option('--server <address>', 'Ask a running server instead of reading the data folder.')
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .addHelpText(
      'after',
      '\nExamples:\n  stillwell export mill mill.zip\n  stillwell export mill mill.html --units metric',
    )
    .action(
      action((well, out, { units, json, server, ...flags }) => {
        const { dataDir } = locate(io, flags);
        return writeExport({ well, out, units, server, dataDir, json: json === true }, io);
      }),
    );
};

interface ExportParams {
  well: string;
  out: string;
  units: UnitSystem | undefined;
  /** If given, it is asked, and the data folder is not read. */
  server: string | undefined;
  dataDir: string;
  json: boolean;
}

async function writeExport(params: ExportParams, io: Io): Promise<number> {
  const { well, out, units, server, dataDir, json } = params;
  const isPage = out.endsWith('.html');
  if (!isPage && !out.endsWith('.zip') && out !== '-')
    throw new UsageError(`Cannot write ${out}: its name must end in .zip or .html`);
  if (out !== '-') requireNewFile(out);
  if (server !== undefined) {
    writeAll(out, [await fetchExport(server, well, isPage ? 'html' : 'zip', units)]);
  } else {
    if (!existsSync(join(dataDir, STORE_FILE)))
      throw new UsageError(
        `Cannot export ${well}: there is no database in ${dataDir}. Name another folder with --data`,
      );
    await withStore(dataDir, 'secondary', async (wellExports, store) => {
      if (!(await isKnown(store, well)))
        throw new UsageError(`Cannot export ${well}: there is no such well in ${dataDir}`);
      writeAll(
        out,
        isPage ? [Buffer.from(await wellExports.page(well, units))] : await wellExports.zip(well, units),
      );
    });
  }
  if (out === '-') return EXIT.ok;
  const bytes = statSync(out).size;
  const sentence = `${out}: ${bytes.toLocaleString('en')} bytes, everything known about ${well}.`;
  io.out(json ? JSON.stringify({ well, file: out, bytes }) : sentence);
  return EXIT.ok;
}

async function isKnown(store: Store, well: string): Promise<boolean> {
  const { acts, entries, imported, days } = await store.past(well);
  return (
    acts.some((row) => row.well === well) ||
    entries.length > 0 ||
    imported.length > 0 ||
    days.length > 0 ||
    (await store.nodes()).some((row) => row.node === well)
  );
}

/** Under another name until it is whole: half an export must not look like a whole one. */
function writeAll(out: string, pieces: Iterable<Uint8Array>): void {
  if (out === '-') {
    for (const chunk of pieces) writeWhole(process.stdout.fd, chunk);
    return;
  }
  const partPath = `${out}.part`;
  const file = openPart(partPath, out);
  try {
    for (const chunk of pieces) writeWhole(file, chunk);
  } catch (error) {
    rmSync(partPath, { force: true });
    throw systemReason(error) === undefined ? error : fileError('write', out, error);
  } finally {
    closeSync(file);
  }
  renameSync(partPath, out);
}

function writeWhole(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
}

function openPart(path: string, out: string): number {
  try {
    return openNewFile(path);
  } catch (cause) {
    throw fileError('write', out, cause);
  }
}
