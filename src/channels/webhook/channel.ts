/** Notices by an HTTP request, signed as Standard Webhooks 1.0.0 says. */
import { z } from 'zod';
import { file, isUrlOf, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { texts } from './texts.ts';

/** Standard Webhooks 1.0.0: base64 of 24 to 64 bytes after the prefix. */
const SECRET_BYTES = { min: 24, max: 64 };

const shape = section({
  url: text(
    () => texts().mustBeAnHttp,
    (value) => isUrlOf(value, ['http:', 'https:']),
  ),
  secretFile: z.exactOptional(file),
  secretEnv: z.exactOptional(
    text(
      () => texts().mustBeTheName,
      (value) => /^[A-Z][A-Z0-9_]*$/.test(value),
    ),
  ),
});

export const webhook = {
  shape,
  help: [
    { key: '', description: () => texts().notifyByAnHttpRequest },
    { key: 'url', description: () => texts().whereItGoes },
    { key: 'secretFile', description: () => texts().fileWithTheSigningSecret },
    {
      key: 'secretEnv',
      description: () => texts().orTheEnvironmentVariable,
    },
  ],
  problems: ({ secretFile, secretEnv }) =>
    (secretFile === undefined) === (secretEnv === undefined)
      ? [{ path: [], rule: texts().mustHoldOneOfSecretfile }]
      : [],
  secret: ({ secretFile, secretEnv }) => ({
    key: secretFile === undefined ? 'secretEnv' : 'secretFile',
    path: secretFile,
    variable: secretEnv,
    required: true,
    isValid: isSecret,
    rule: texts().mustHoldWhsec,
  }),
  words: () => 'webhook',
  async open() {
    const { webhookSender } = await import('./sender.ts');
    return {
      sender: ({ url }, _address, secret) => webhookSender({ url, ...(secret && { secret: secret() }) }),
    };
  },
} as const satisfies Channel<z.output<typeof shape>>;

function isSecret(secret: string): boolean {
  if (!/^whsec_[A-Za-z0-9+/]+={0,2}$/.test(secret)) return false;
  const bytes = Buffer.from(secret.slice('whsec_'.length), 'base64').length;
  return bytes >= SECRET_BYTES.min && bytes <= SECRET_BYTES.max;
}
