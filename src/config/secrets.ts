/**
 * Secrets come from a file or the environment and never from the settings file itself, so that
 * settings can be shown, sent and backed up. A secret is a function: printed, logged or made into
 * JSON it shows nothing.
 */
import { readFileSync, statSync } from 'node:fs';
import type { Secret, SecretSource } from '../channels/channel.ts';
import { CHANNELS, channelsOf, SHARED_PARTS, type SharedSettings } from '../channels/channels.ts';
import { BROKER_PASSWORD_VARIABLE } from './environment.ts';
import type { Environment } from './environment.ts';
import { MAX_SECRET_BYTES } from './limits.ts';
import { SettingsError } from './settings.ts';
import type { Settings } from './settings.ts';
import { texts } from '../settings-texts.ts';

export interface Secrets {
  brokerPassword?: Secret;
  /** Of notice channels, by the setting that they belong to: `smtp`, `notices.0.webhook`. */
  channels: Record<string, Secret>;
}

/**
 * All secrets that the settings name.
 * @throws SettingsError where one is missing or unreadable; its value is never told.
 */
export function readSecrets(settings: Settings, env: Environment): Secrets {
  const { broker } = settings;
  const brokerPassword =
    broker.kind === 'external'
      ? secretFrom('broker.passwordFile', broker.passwordFile, env[BROKER_PASSWORD_VARIABLE])
      : undefined;
  return {
    ...(brokerPassword && { brokerPassword }),
    channels: Object.fromEntries([...sharedSecrets(settings, env), ...recipientSecrets(settings, env)]),
  };
}

function sharedSecrets(settings: Settings, env: Environment): [string, Secret][] {
  return SHARED_PARTS.flatMap((part): [string, Secret][] => {
    const shared = settings[part.key as keyof SharedSettings];
    const source = shared && part.secret?.(shared);
    return source ? channelSecret(part.key, { variable: part.secretVariable, ...source }, env) : [];
  });
}

function recipientSecrets({ notices }: Settings, env: Environment): [string, Secret][] {
  return notices.flatMap((recipient, at) =>
    channelsOf(recipient).flatMap(({ name, own }) => {
      const source = CHANNELS[name].secret?.(own);
      return source ? channelSecret(`notices.${at}.${name}`, source, env) : [];
    }),
  );
}

function channelSecret(setting: string, source: SecretSource, env: Environment): [string, Secret][] {
  const { path, variable, required, isValid, rule } = source;
  const key = `${setting}.${source.key}`;
  const secret = secretFrom(key, path, variable === undefined ? undefined : env[variable]);
  if (!secret && required)
    throw new SettingsError(texts().mustNameAVariable({ key, variable: variable ?? '' }));
  if (secret && isValid?.(secret()) === false)
    throw new SettingsError(texts().ruleOfASecret({ key, rule: rule ?? '' }));
  return secret ? [[setting, secret]] : [];
}

/** The environment wins over the file; undefined where neither is given. */
function secretFrom(key: string, path: string | undefined, envValue: string | undefined): Secret | undefined {
  if (envValue !== undefined && envValue !== '') return () => envValue;
  if (path === undefined) return undefined;
  const text = readSecretFile(key, path);
  return () => text;
}

/** One line; the line's end that editors add is no part of it. */
function readSecretFile(key: string, path: string): string {
  let text: string;
  try {
    if (statSync(path).size > MAX_SECRET_BYTES)
      throw new RangeError(texts().secretIsLargerThanBytes(MAX_SECRET_BYTES));
    text = readFileSync(path, 'utf8').replace(/\r?\n$/, '');
  } catch (cause) {
    throw new SettingsError(texts().cannotReadTheFile({ key, path: JSON.stringify(path) }), { cause });
  }
  if (text === '' || text.includes('\n')) {
    throw new SettingsError(texts().mustHoldOneLine({ key, path: JSON.stringify(path) }));
  }
  return text;
}
