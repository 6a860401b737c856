/** The relay that takes the mail, as the settings describe it. */
import { z } from 'zod';
import { file, host, integer, oneOf, PORTS, section, text } from '../../settings-shapes.ts';
import type { SettingsProblem } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';

/**
 * Default ports by how mail is secured (RFC 8314, RFC 6409; 25 for a relay, RFC 5321).
 */
const DEFAULT_PORTS = { tls: 465, starttls: 587, none: 25 } as const;
/** Hosts that never leave this machine. */
const LOOPBACK: readonly string[] = ['127.0.0.1', '::1', 'localhost'];

const from = text('must be a mail address, or a name and <an address>', (value) =>
  /^([^<>@]*<[^\s@<>]+@[^\s@<>]+>|[^\s@<>]+@[^\s@<>]+)$/.test(value),
);
const shape = section({
  host,
  port: z.exactOptional(integer({ min: 1, max: PORTS.max })),
  /** `tls` from the first byte, `starttls` or nothing, `none` for a relay on the local network. */
  secure: oneOf('starttls', 'tls', 'none').default('starttls'),
  user: z.exactOptional(text('must be a user name')),
  passwordFile: z.exactOptional(file),
  /** `Stillwell <well@farm.example>` or an address alone. */
  from,
}).transform((smtp) => ({ ...smtp, port: smtp.port ?? DEFAULT_PORTS[smtp.secure] }));
export type SmtpSettings = z.output<typeof shape>;

export const SMTP = {
  key: 'smtp',
  shape,
  help: [
    { key: '', description: 'The mail server that takes notices.' },
    { key: 'host', description: 'Its name or address. A relay on the farm network will do.' },
    { key: 'port', description: 'Its port.', defaultText: '587; 465 with tls, 25 with none' },
    {
      key: 'secure',
      description: 'starttls, tls, or none for a relay that asks for no user.',
      defaultText: 'starttls',
    },
    { key: 'user', description: 'User name, where it asks for one.' },
    {
      key: 'passwordFile',
      description: 'File with the password. Or put it into STILLWELL_SMTP_PASSWORD.',
    },
    { key: 'from', description: 'Sender of the mail.' },
  ],
  problems,
  secret: ({ passwordFile }) => ({ key: 'passwordFile', path: passwordFile }),
  secretVariable: 'STILLWELL_SMTP_PASSWORD',
} as const satisfies Channel<object, SmtpSettings>['shared'];

function problems({ user, passwordFile, secure, host: relay }: SmtpSettings): SettingsProblem[] {
  const found: SettingsProblem[] = [];
  if (passwordFile !== undefined && user === undefined)
    found.push({ path: ['passwordFile'], rule: 'must come with smtp.user' });
  if (user !== undefined && secure === 'none' && !LOOPBACK.includes(relay)) {
    found.push({
      path: ['secure'],
      rule: 'must be starttls or tls where a user signs in: else the password can be read on the way',
    });
  }
  return found;
}
