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
import { texts } from '../settings-texts.ts';

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
  if (problem) throw new SettingsError(texts().cannotReadSettings(formatProblem(problem, input, env)));
  if (!result.success) throw new SettingsError(texts().theyHaveNoReadableForm);
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
    throw new SettingsError(texts().fileMustBeJson(jsonErrorPosition(cause)), {
      cause,
    });
  }
  if (!isRecord(json)) throw new SettingsError(texts().fileMustBeAnObject);
  return json;
}

/** Where JSON broke, without the text around it, which may hold anything. */
function jsonErrorPosition(cause: unknown): string {
  const at =
    cause instanceof Error
      ? /(?:at position \d+|\(line \d+ column \d+\)|end of JSON input)/.exec(cause.message)
      : null;
  return at
    ? texts().itBreaksOff(at[0].startsWith('end') ? texts().beforeItsEnd : at[0])
    : texts().itBreaksOffSomewhere;
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
  if (!issue) return { path: [], rule: texts().mustBeSettings };
  const path = issue.path.map((part) => (typeof part === 'symbol' ? String(part) : part));
  const [unknown] = issue.keys ?? [];
  if (issue.code !== 'unrecognized_keys' || unknown === undefined) return { path, rule: issue.message };
  return {
    path: [...path, unknown],
    rule: texts().isNotKnownKnown(knownKeys(path).join(', ')),
    unknownKey: true,
  };
}

function formatProblem(problem: SettingsProblem, written: unknown, env: Environment): string {
  const { path, rule } = problem;
  const key = path.join('.');
  const variable = variableFor(key);
  const from = variable !== undefined && env[variable] !== undefined ? texts().fromVariable(variable) : '';
  return `${key}${from} ${rule}: ${formatValue(valueAt(written, path), problem)}`;
}

function valueAt(holder: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, key) => {
    if (Array.isArray(value)) return typeof key === 'number' ? (value as unknown[])[key] : undefined;
    return isRecord(value) && typeof key === 'string' && Object.hasOwn(value, key) ? value[key] : undefined;
  }, holder);
}

/** Unknown keys may be misspelt secrets, and addresses may hold a password: neither is shown. */
function formatValue(value: unknown, { path, unknownKey }: SettingsProblem): string {
  const key = String(path.at(-1) ?? '');
  if (value === undefined) return texts().nothing;
  if (typeof value === 'object' && value !== null)
    return Array.isArray(value) ? texts().listOfValues : texts().object;
  if (unknownKey && /pass|secret|token|key|auth/i.test(key)) return texts().notShown;
  if (/url$/i.test(key) && typeof value === 'string' && value.includes('@')) return texts().notShownItMayHold;
  const text = JSON.stringify(value) ?? texts().nothing;
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
