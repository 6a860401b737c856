/**
 * Finds the settings file, reads it once and hands back settings and secrets. The only place in
 * this folder that chooses a path.
 */
import { readFileSync, statSync } from 'node:fs';
import { fileError } from '../../shared/text/en/system-reasons.ts';
import { SETTINGS_FILE_VARIABLE } from './environment.ts';
import type { Environment } from './environment.ts';
import { MAX_FILE_BYTES } from './limits.ts';
import { readSecrets } from './secrets.ts';
import type { Secrets } from './secrets.ts';
import { readSettings } from './read-settings.ts';
import { SettingsError } from './settings.ts';
import type { Settings } from './settings.ts';
import { texts } from '../settings-texts.ts';

/** Where settings stand unless another place is named; none there is as good as an empty one. */
export const DEFAULT_SETTINGS_PATH = '.stillwell/settings.json';

export interface LoadedSettings {
  settings: Settings;
  secrets: Secrets;
  /** The file that was read; absent where there was none. */
  path?: string;
}

/**
 * Settings and secrets. `path`: a file named on the command line, which wins over
 * STILLWELL_SETTINGS. A file that was named must be there.
 * @throws SettingsError with one line for people; exit code 2.
 */
export function loadSettings(env: Environment, path?: string): LoadedSettings {
  const named = path ?? env[SETTINGS_FILE_VARIABLE];
  const text = readText(named ?? DEFAULT_SETTINGS_PATH, named !== undefined);
  const settings = readSettings(text, env);
  return {
    settings,
    secrets: readSecrets(settings, env),
    ...(text !== undefined && { path: named ?? DEFAULT_SETTINGS_PATH }),
  };
}

function readText(path: string, mustExist: boolean): string | undefined {
  try {
    const { size } = statSync(path);
    if (size > MAX_FILE_BYTES) {
      throw new SettingsError(texts().fileMustBeAtMost({ maxFileBytes: MAX_FILE_BYTES, path, size }));
    }
    return readFileSync(path, 'utf8');
  } catch (cause) {
    if (cause instanceof SettingsError) throw cause;
    const isMissing = cause instanceof Error && 'code' in cause && cause.code === 'ENOENT';
    if (isMissing && !mustExist) return undefined;
    throw new SettingsError(fileError(texts().readSettings, path, cause).message, { cause });
  }
}
