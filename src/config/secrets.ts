/**
 * Secrets come from a file or the environment and never from the settings file itself, so that
 * settings can be shown, sent and backed up. A secret is a function: printed, logged or made into
 * JSON it shows nothing.
 */
import { readFileSync, statSync } from 'node:fs';
import { BROKER_PASSWORD_VARIABLE, SMTP_PASSWORD_VARIABLE } from './environment.ts';
import type { Environment } from './environment.ts';
import { MAX_SECRET_BYTES } from './limits.ts';
import { SettingsError } from './settings.ts';
import type { Settings } from './settings.ts';

/** Call it where the secret is used, and nowhere else. */
export type Secret = () => string;

export interface Secrets {
  brokerPassword?: Secret;
  smtpPassword?: Secret;
  /** By the recipient's name: a Standard Webhooks secret, `whsec_…`. */
  webhooks: Record<string, Secret>;
}

/** Standard Webhooks 1.0.0: base64 of 24 to 64 bytes after the prefix. */
const WEBHOOK_SECRET_BYTES = { min: 24, max: 64 };

/**
 * All secrets that the settings name. @throws SettingsError where one is missing or unreadable; its
 * value is never told.
 */
export function readSecrets(settings: Settings, env: Environment): Secrets {
  const { broker, smtp } = settings;
  const brokerPassword =
    broker.kind === 'external'
      ? secretFrom('broker.passwordFile', broker.passwordFile, env[BROKER_PASSWORD_VARIABLE])
      : undefined;
  const smtpPassword =
    smtp && secretFrom('smtp.passwordFile', smtp.passwordFile, env[SMTP_PASSWORD_VARIABLE]);
  return {
    ...(brokerPassword && { brokerPassword }),
    ...(smtpPassword && { smtpPassword }),
    webhooks: webhookSecrets(settings, env),
  };
}

function webhookSecrets({ notices }: Settings, env: Environment): Record<string, Secret> {
  const secrets = notices.flatMap(({ name, webhook }, at): [string, Secret][] => {
    if (!webhook) return [];
    const key = `notices.${at}.webhook.${webhook.secretFile === undefined ? 'secretEnv' : 'secretFile'}`;
    const envValue = webhook.secretEnv === undefined ? undefined : env[webhook.secretEnv];
    const secret = secretFrom(key, webhook.secretFile, envValue);
    if (!secret)
      throw new SettingsError(
        `Cannot read settings: ${key} must name a variable that is set: ${webhook.secretEnv}`,
      );
    if (!isWebhookSecret(secret())) {
      throw new SettingsError(
        `Cannot read settings: ${key} must hold whsec_ and the base64 of 24 to 64 bytes: (not shown)`,
      );
    }
    return [[name, secret]];
  });
  return Object.fromEntries(secrets);
}

function isWebhookSecret(text: string): boolean {
  if (!/^whsec_[A-Za-z0-9+/]+={0,2}$/.test(text)) return false;
  const bytes = Buffer.from(text.slice('whsec_'.length), 'base64').length;
  return bytes >= WEBHOOK_SECRET_BYTES.min && bytes <= WEBHOOK_SECRET_BYTES.max;
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
      throw new RangeError(`it is larger than ${MAX_SECRET_BYTES} bytes`);
    text = readFileSync(path, 'utf8').replace(/\r?\n$/, '');
  } catch (cause) {
    throw new SettingsError(
      `Cannot read settings: ${key} must be a file that can be read: ${JSON.stringify(path)}`,
      { cause },
    );
  }
  if (text === '' || text.includes('\n')) {
    throw new SettingsError(`Cannot read settings: ${key} must hold one line: ${JSON.stringify(path)}`);
  }
  return text;
}
