/**
 * The text of a settings file and the environment -> checked settings, or one line that names the
 * key, the rule and the value. Reads no file itself (./load-settings.ts does). What might be a
 * secret is never in that line.
 */
import { firstCrossProblem } from './cross-checks.ts';
import type { SettingsProblem } from '../settings-shapes.ts';
import { isRecord, applyEnvironment, variableFor } from './environment.ts';
import type { Environment } from './environment.ts';
import { knownKeys } from './help.ts';
import { settingsShape } from './schema.ts';
import type { SettingsInput } from './schema.ts';
import { SettingsError } from './settings.ts';
import type { BrokerSettings, Settings } from './settings.ts';

type Path = readonly PropertyKey[];

/** Longest value shown. */
const MAX_VALUE_CHARACTERS = 80;

/**
 * Checked settings out of the file's text ('' or undefined for none) and the environment.
 * @throws SettingsError "Cannot read settings: KEY RULE: VALUE"
 */
export function readSettings(text: string | undefined, env: Environment): Settings {
  const input = applyEnvironment(parseFile(text ?? ''), env);
  const result = settingsShape.safeParse(input);
  const problem = result.success ? firstCrossProblem(result.data) : firstIssue(result.error.issues);
  if (problem) throw new SettingsError(`Cannot read settings: ${formatProblem(problem, input, env)}`);
  if (!result.success) throw new SettingsError('Cannot read settings: they have no readable form');
  return withDefaults(result.data);
}

/**
 * The settings of a server that nobody set up: the built-in broker on loopback, US units, nobody to
 * tell.
 */
export const DEFAULT_SETTINGS: Settings = readSettings('', {});

function parseFile(text: string): Record<string, unknown> {
  if (text.trim() === '') return {};
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    throw new SettingsError(`Cannot read settings: the file must be JSON: ${jsonErrorPosition(cause)}`, {
      cause,
    });
  }
  if (!isRecord(json)) throw new SettingsError('Cannot read settings: the file must be an object in braces');
  return json;
}

/** Where JSON broke, without the text around it, which may hold anything. */
function jsonErrorPosition(cause: unknown): string {
  const at =
    cause instanceof Error
      ? /(?:at position \d+|\(line \d+ column \d+\)|end of JSON input)/.exec(cause.message)
      : null;
  return at ? `it breaks off ${at[0].startsWith('end') ? 'before its end' : at[0]}` : 'it breaks off';
}

interface Issue {
  code?: string | undefined;
  path: Path;
  message: string;
  keys?: readonly string[];
  errors?: readonly (readonly Issue[])[];
}

function firstIssue(issues: readonly Issue[]): SettingsProblem {
  const [issue] = issues;
  if (!issue) return { path: [], rule: 'must be settings' };
  const path = issue.path.map((part) => (typeof part === 'symbol' ? String(part) : part));
  const [unknown] = issue.keys ?? [];
  if (issue.code !== 'unrecognized_keys' || unknown === undefined) return { path, rule: issue.message };
  return { path: [...path, unknown], rule: `is not known; known are ${knownKeys(path).join(', ')}` };
}

function formatProblem({ path, rule }: SettingsProblem, written: unknown, env: Environment): string {
  const key = path.join('.');
  const variable = variableFor(key);
  const from = variable !== undefined && env[variable] !== undefined ? ` (from ${variable})` : '';
  return `${key}${from} ${rule}: ${formatValue(valueAt(written, path), path, rule)}`;
}

function valueAt(holder: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, key) => {
    if (Array.isArray(value)) return typeof key === 'number' ? (value as unknown[])[key] : undefined;
    return isRecord(value) && typeof key === 'string' && Object.hasOwn(value, key) ? value[key] : undefined;
  }, holder);
}

/** Unknown keys may be misspelt secrets, and addresses may hold a password: neither is shown. */
function formatValue(value: unknown, path: Path, rule: string): string {
  const key = String(path.at(-1) ?? '');
  if (value === undefined) return 'nothing';
  if (typeof value === 'object' && value !== null) return Array.isArray(value) ? 'a list' : 'an object';
  if (rule.startsWith('is not known') && /pass|secret|token|key|auth/i.test(key)) return '(not shown)';
  if (/url$/i.test(key) && typeof value === 'string' && value.includes('@'))
    return '(not shown: it may hold a password)';
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > MAX_VALUE_CHARACTERS ? `${text.slice(0, MAX_VALUE_CHARACTERS)}…` : text;
}

function withDefaults({ broker, ...rest }: SettingsInput): Settings {
  return { ...rest, broker: brokerWithDefaults(broker, rest.observe) };
}

/** An observer has its own client id: two clients of one id throw each other off the broker. */
function brokerWithDefaults(
  { builtIn, url, ...external }: SettingsInput['broker'],
  observe: boolean,
): BrokerSettings {
  if (url === undefined) return { kind: 'built-in', ...(builtIn ?? { host: '127.0.0.1', port: 1883 }) };
  return {
    kind: 'external',
    url,
    clientId: observe ? 'stillwell-observe' : 'stillwell',
    protocolVersion: 5,
    ...external,
  };
}
