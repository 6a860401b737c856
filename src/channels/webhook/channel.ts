/** Notices by an HTTP request, signed as Standard Webhooks 1.0.0 says. */
import { z } from 'zod';
import { file, isUrlOf, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';

/** Standard Webhooks 1.0.0: base64 of 24 to 64 bytes after the prefix. */
const SECRET_BYTES = { min: 24, max: 64 };

const shape = section({
  url: text('must be an http or https address', (value) => isUrlOf(value, ['http:', 'https:'])),
  secretFile: z.exactOptional(file),
  secretEnv: z.exactOptional(
    text('must be the name of an environment variable', (value) => /^[A-Z][A-Z0-9_]*$/.test(value)),
  ),
});

export const webhook = {
  shape,
  help: [
    { key: '', description: 'Notify by an HTTP request, signed as Standard Webhooks says.' },
    { key: 'url', description: 'Where it goes.' },
    { key: 'secretFile', description: 'File with the signing secret (whsec_…).' },
    {
      key: 'secretEnv',
      description: 'Or the environment variable that holds it (name it STILLWELL_SECRET_…).',
    },
  ],
  problems: ({ secretFile, secretEnv }) =>
    (secretFile === undefined) === (secretEnv === undefined)
      ? [{ path: [], rule: 'must hold one of secretFile, secretEnv' }]
      : [],
  secret: ({ secretFile, secretEnv }) => ({
    key: secretFile === undefined ? 'secretEnv' : 'secretFile',
    path: secretFile,
    variable: secretEnv,
    required: true,
    isValid: isSecret,
    rule: 'must hold whsec_ and the base64 of 24 to 64 bytes',
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
