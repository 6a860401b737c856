/** `stillwell import`: a well from the export of another server. */
import { MAX_EXPORT_BYTES } from '../../../shared/entries/limits.ts';
import type { ImportResult } from '../../http/deps.ts';
import { StoreError } from '../../store/store-error.ts';
import { EXIT, type CommandBuilder, type Io } from '../command.ts';
import { readInput } from '../files.ts';
import { byOption, dataOption, jsonOption, settingsOption } from '../options.ts';
import { locate } from '../place.ts';
import { postImport } from './export-server.ts';
import { withStore } from './export-store.ts';
import { texts } from './texts.ts';

export const importCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().importAWell)
    .argument('<file>', texts().fileThatStillwellExportMade)
    .option('--same', texts().wellOfThisNameHere)
    .addOption(byOption())
    .addOption(jsonOption())
    .option('--server <address>', texts().addressOfTheRunningServer)
    .addOption(settingsOption())
    .addOption(dataOption())
    .addHelpText('after', texts().examplesOfImport)
    .action(
      action(async (file, { same, by, json, server, ...flags }) => {
        const { dataDir, defaultServer } = locate(io, flags);
        const place = { dataDir, defaultServer, ...(server !== undefined && { server }) };
        const how = { sameWell: same === true, ...(by !== undefined && { by }) };
        const result = await importFile(place, readInput(file, MAX_EXPORT_BYTES), how);
        return printResult(result, io, json === true);
      }),
    );
};

interface DataLocation {
  dataDir: string;
  /** If given, the server to ask. */
  server?: string;
  /** By the settings. */
  defaultServer: string;
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

function printResult(result: ImportResult, io: Io, json: boolean): number {
  if ('problem' in result) {
    io.err(result.confirm === 'same' ? texts().ifItIsAddSame(result.problem) : result.problem);
    return EXIT.usage;
  }
  if (json) io.out(JSON.stringify(result));
  else for (const sentence of result.summary) io.out(sentence);
  return EXIT.ok;
}
