/**
 * Where a server keeps everything: its settings file and its data folder, from the options of a
 * command.
 */
import { resolve } from 'node:path';
import { DEFAULT_SETTINGS_PATH, loadSettings, type LoadedSettings } from '../config/load-settings.ts';
import { DEFAULT_SETTINGS } from '../config/read-settings.ts';
import { SettingsError } from '../config/settings.ts';
import { UsageError, type Io } from './command.ts';

export interface Place extends LoadedSettings {
  dataDir: string;
  /** Of the pages and the API, by the settings. */
  defaultServer: string;
  /** What another command needs to find the same place: ` --data /srv/wells`, or nothing. */
  options: string;
}

/** @throws UsageError if the settings cannot be used. */
export function locate(io: Io, given: { settings?: string; data?: string }): Place {
  const loaded = readSettings(io, given.settings);
  const { settings, path } = loaded;
  const dataDir = given.data ?? settings.dataDir;
  return {
    ...loaded,
    dataDir,
    defaultServer: `http://${settings.web.host}:${settings.web.port}`,
    options:
      (path === undefined || path === DEFAULT_SETTINGS_PATH ? '' : ` --settings ${shellPath(path)}`) +
      (dataDir === DEFAULT_SETTINGS.dataDir ? '' : ` --data ${shellPath(dataDir)}`),
  };
}

function readSettings(io: Io, path: string | undefined): LoadedSettings {
  try {
    return loadSettings(io.env, path);
  } catch (error) {
    throw asUsageError(error);
  }
}

/** Settings that cannot be used are a mistake of who wrote them. */
export function asUsageError(error: unknown): unknown {
  return error instanceof SettingsError ? new UsageError(error.message, { cause: error }) : error;
}

/** From the root of the disk, so that the command works in any folder. */
function shellPath(path: string): string {
  const whole = resolve(path);
  return /^[\w./:\\-]+$/.test(whole) ? whole : `"${whole}"`;
}
