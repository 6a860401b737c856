/**
 * The text of a settings file and the environment -> checked settings, or one line that names the key, the rule and the value. Reads
 * no file itself (./load-settings.ts does). What might be a secret is never in that line.
 */
import { crossCheck } from './cross-checks.ts';
import type { SettingsProblem } from './cross-checks.ts';
import { isRecord, overlayEnvironment, variableFor } from './environment.ts';
import type { Environment } from './environment.ts';
import { knownKeys } from './help.ts';
import { SETTINGS_SHAPE } from './schema.ts';
import type { WrittenSettings } from './schema.ts';
import { SettingsError } from './settings.ts';
import type { BrokerSettings, RecipientSettings, Settings, SmtpSettings } from './settings.ts';

type Path = readonly PropertyKey[];

/** Longest value shown. */
const SHOWN_CHARACTERS = 80;

/** Default ports of mail by how it is secured (RFC 8314, RFC 6409; 25 for a relay, RFC 5321). */
const SMTP_PORTS: Record<SmtpSettings['secure'], number> = { tls: 465, starttls: 587, none: 25 };

/**
 * Checked settings out of the file's text ('' or undefined for none) and the environment.
 * @throws SettingsError "Cannot read settings: KEY RULE: VALUE"
 */
export function readSettings(text: string | undefined, env: Environment): Settings {
  const written = overlayEnvironment(parseFile(text ?? ''), env);
  const result = SETTINGS_SHAPE.safeParse(written);
  const problem = result.success ? crossCheck(result.data) : firstIssue(result.error.issues);
  if (problem) throw new SettingsError(`Cannot read settings: ${lineOf(problem, written, env)}`);
  if (!result.success) throw new SettingsError('Cannot read settings: they have no readable form');
  return complete(result.data);
}

/** The settings of a server that nobody set up: the built-in broker on loopback, US units, nobody to tell. */
export const DEFAULT_SETTINGS: Settings = readSettings('', {});

function parseFile(text: string): Record<string, unknown> {
  if (text.trim() === '') return {};
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (cause) {
    throw new SettingsError(`Cannot read settings: the file must be JSON: ${withoutText(cause)}`, { cause });
  }
  if (!isRecord(json)) throw new SettingsError('Cannot read settings: the file must be an object in braces');
  return json;
}

/** Where JSON broke, without the text around it, which may hold anything. */
function withoutText(cause: unknown): string {
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

function lineOf({ path, rule }: SettingsProblem, written: unknown, env: Environment): string {
  const key = path.join('.');
  const variable = variableFor(key);
  const from = variable !== undefined && env[variable] !== undefined ? ` (from ${variable})` : '';
  return `${key}${from} ${rule}: ${shown(valueAt(written, path), path, rule)}`;
}

function valueAt(holder: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, key) => {
    if (Array.isArray(value)) return typeof key === 'number' ? (value as unknown[])[key] : undefined;
    return isRecord(value) && typeof key === 'string' && Object.hasOwn(value, key) ? value[key] : undefined;
  }, holder);
}

/** Unknown keys may be misspelt secrets, and addresses may hold a password: neither is shown. */
function shown(value: unknown, path: Path, rule: string): string {
  const key = String(path.at(-1) ?? '');
  if (value === undefined) return 'nothing';
  if (typeof value === 'object' && value !== null) return Array.isArray(value) ? 'a list' : 'an object';
  if (rule.startsWith('is not known') && /pass|secret|token|key|auth/i.test(key)) return '(not shown)';
  if (/url$/i.test(key) && typeof value === 'string' && value.includes('@'))
    return '(not shown: it may hold a password)';
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}…` : text;
}

function complete({ broker, notices, smtp, ...rest }: WrittenSettings): Settings {
  return {
    ...rest,
    broker: completeBroker(broker, rest.observe),
    notices: notices.map(completeRecipient),
    ...(smtp && { smtp: { ...smtp, port: smtp.port ?? SMTP_PORTS[smtp.secure] } }),
  };
}

/** An observer has its own client id: two clients of one id throw each other off the broker. */
function completeBroker(
  { builtIn, url, ...outside }: WrittenSettings['broker'],
  observe: boolean,
): BrokerSettings {
  if (url === undefined) return { kind: 'built-in', ...(builtIn ?? { host: '127.0.0.1', port: 1883 }) };
  return {
    kind: 'outside',
    url,
    clientId: observe ? 'stillwell-observe' : 'stillwell',
    protocolVersion: 5,
    ...outside,
  };
}

function completeRecipient({ mail, ...rest }: WrittenSettings['notices'][number]): RecipientSettings {
  return { ...rest, ...(mail && { mail: { to: typeof mail.to === 'string' ? [mail.to] : mail.to } }) };
}
