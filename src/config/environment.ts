/**
 * Settings that the environment may give instead of the file, by name. It wins over the file, so
 * that one machine can differ. A name that begins with STILLWELL_ and is not here is refused: it is
 * a slip, and a slip that does nothing is found too late.
 */
import { SHARED_PARTS } from '../channels/channels.ts';
import { SettingsError } from './settings.ts';
import { texts } from '../settings-texts.ts';

/** A variable and the setting it stands for. */
const VARIABLES: Record<string, { path: readonly string[]; type: 'text' | 'number' | 'flag' }> = {
  STILLWELL_DATA_DIR: { path: ['dataDir'], type: 'text' },
  STILLWELL_ROOT: { path: ['root'], type: 'text' },
  STILLWELL_BROKER_URL: { path: ['broker', 'url'], type: 'text' },
  STILLWELL_BROKER_USERNAME: { path: ['broker', 'username'], type: 'text' },
  STILLWELL_BROKER_HOST: { path: ['broker', 'builtIn', 'host'], type: 'text' },
  STILLWELL_BROKER_PORT: { path: ['broker', 'builtIn', 'port'], type: 'number' },
  STILLWELL_OBSERVE: { path: ['observe'], type: 'flag' },
  STILLWELL_WEB_HOST: { path: ['web', 'host'], type: 'text' },
  STILLWELL_WEB_PORT: { path: ['web', 'port'], type: 'number' },
  STILLWELL_CALENDAR_HOST: { path: ['calendar', 'host'], type: 'text' },
  STILLWELL_CALENDAR_PORT: { path: ['calendar', 'port'], type: 'number' },
  STILLWELL_UNITS: { path: ['units'], type: 'text' },
  STILLWELL_CARDS_DIR: { path: ['cardsDir'], type: 'text' },
};

/** Where the settings file is, and secrets: read elsewhere (./load-settings.ts, ./secrets.ts). */
export const SETTINGS_FILE_VARIABLE = 'STILLWELL_SETTINGS';
export const BROKER_PASSWORD_VARIABLE = 'STILLWELL_BROKER_PASSWORD';
const READ_ELSEWHERE: readonly string[] = [
  SETTINGS_FILE_VARIABLE,
  BROKER_PASSWORD_VARIABLE,
  ...SHARED_PARTS.flatMap(({ secretVariable }) => secretVariable ?? []),
];

export type Environment = Readonly<Record<string, string | undefined>>;

/** Names of all variables that are understood, for the help. */
export function variableFor(path: string): string | undefined {
  return Object.keys(VARIABLES).find((name) => VARIABLES[name]?.path.join('.') === path);
}

/**
 * `input` with what the environment says laid over it. `secretNames`: variables that the settings
 * themselves name.
 * @throws SettingsError for an unknown STILLWELL_ variable.
 */
export function applyEnvironment(input: Record<string, unknown>, env: Environment): Record<string, unknown> {
  let settings = input;
  for (const name of Object.keys(env).sort()) {
    const value = env[name];
    if (!name.startsWith('STILLWELL_') || value === undefined || READ_ELSEWHERE.includes(name)) continue;
    const variable = VARIABLES[name];
    if (variable) settings = setValueAt(settings, variable.path, parseVariable(value, variable.type));
    else if (!name.startsWith('STILLWELL_SECRET_')) {
      const known = [...Object.keys(VARIABLES), ...READ_ELSEWHERE, 'STILLWELL_SECRET_…'];
      throw new SettingsError(texts().isNotKnownInTheEnvironment({ name, known: known.join(', ') }));
    }
  }
  return settings;
}

/** What is no number or flag stays text, and the schema refuses it with its own rule. */
function parseVariable(value: string, type: 'text' | 'number' | 'flag'): unknown {
  if (type === 'number' && /^\d+$/.test(value)) return Number(value);
  if (type === 'flag' && (value === 'true' || value === 'false')) return value === 'true';
  return value;
}

function setValueAt(
  holder: Record<string, unknown>,
  path: readonly string[],
  value: unknown,
): Record<string, unknown> {
  const [key, ...rest] = path;
  if (key === undefined) return holder;
  if (rest.length === 0) return { ...holder, [key]: value };
  const inner = holder[key];
  // What is no object stays as it is, so that the schema can refuse it.
  if (inner !== undefined && !isRecord(inner)) return holder;
  return { ...holder, [key]: setValueAt(inner ?? {}, rest, value) };
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
