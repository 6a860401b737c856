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
import { dataOption, jsonOption, readUnits, settingsOption } from '../options.ts';
import { locate } from '../place.ts';
import { fetchExport } from './export-server.ts';
import { withStore } from './export-store.ts';
import { texts } from './texts.ts';

export const exportCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().writeEverythingKnownAbout)
    .argument('<well>', texts().nameOfTheWell)
    .argument('<file>', texts().fileToMakeZip)
    .option('--units <units>', texts().usOrMetric, readUnits)
    .addOption(jsonOption())
    .option('--server <address>', texts().askARunningServerInstead)
    .addOption(settingsOption())
    .addOption(dataOption())
    .addHelpText('after', texts().examplesOfExport)
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
  if (!isPage && !out.endsWith('.zip') && out !== '-') throw new UsageError(texts().itsNameMustEnd(out));
  if (out !== '-') requireNewFile(out);
  if (server !== undefined) {
    writeAll(out, [await fetchExport(server, well, isPage ? 'html' : 'zip', units)]);
  } else {
    if (!existsSync(join(dataDir, STORE_FILE)))
      throw new UsageError(texts().thereIsNoDatabase({ well, dataDir }));
    await withStore(dataDir, 'secondary', async (wellExports, store) => {
      if (!(await isKnown(store, well))) throw new UsageError(texts().thereIsNoSuchWell({ well, dataDir }));
      writeAll(
        out,
        isPage ? [Buffer.from(await wellExports.page(well, units))] : await wellExports.zip(well, units),
      );
    });
  }
  if (out === '-') return EXIT.ok;
  const bytes = statSync(out).size;
  const sentence = texts().bytesEverythingKnownAbout({ out, bytes, well });
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
