/** The relay that takes the mail, as the settings describe it. */
import { z } from 'zod';
import { file, host, integer, oneOf, PORTS, section, text } from '../../settings-shapes.ts';
import type { SettingsProblem } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { texts } from './texts.ts';

/**
 * Default ports by how mail is secured (RFC 8314, RFC 6409; 25 for a relay, RFC 5321).
 */
const DEFAULT_PORTS = { tls: 465, starttls: 587, none: 25 } as const;
/** Hosts that never leave this machine. */
const LOOPBACK: readonly string[] = ['127.0.0.1', '::1', 'localhost'];

const from = text(
  () => texts().mustBeAMailAddressOrA,
  (value) => /^([^<>@]*<[^\s@<>]+@[^\s@<>]+>|[^\s@<>]+@[^\s@<>]+)$/.test(value),
);
const shape = section({
  host,
  port: z.exactOptional(integer({ min: 1, max: PORTS.max })),
  /** `tls` from the first byte, `starttls` or nothing, `none` for a relay on the local network. */
  secure: oneOf('starttls', 'tls', 'none').default('starttls'),
  user: z.exactOptional(text(() => texts().mustBeAUserName)),
  passwordFile: z.exactOptional(file),
  /** `Stillwell <well@farm.example>` or an address alone. */
  from,
}).transform((smtp) => ({ ...smtp, port: smtp.port ?? DEFAULT_PORTS[smtp.secure] }));
export type SmtpSettings = z.output<typeof shape>;

export const SMTP = {
  key: 'smtp',
  shape,
  help: [
    { key: '', description: () => texts().mailServerThatTakesNotices },
    { key: 'host', description: () => texts().itsNameOrAddress },
    { key: 'port', description: () => texts().itsPort, defaultText: () => texts().withTlsWithNone },
    {
      key: 'secure',
      description: () => texts().starttlsTlsOrNone,
      defaultText: 'starttls',
    },
    { key: 'user', description: () => texts().userNameWhereItAsks },
    {
      key: 'passwordFile',
      description: () => texts().fileWithThePassword,
    },
    { key: 'from', description: () => texts().senderOfTheMail },
  ],
  problems,
  secret: ({ passwordFile }) => ({ key: 'passwordFile', path: passwordFile }),
  secretVariable: 'STILLWELL_SMTP_PASSWORD',
} as const satisfies Channel<object, SmtpSettings>['shared'];

function problems({ user, passwordFile, secure, host: relay }: SmtpSettings): SettingsProblem[] {
  const found: SettingsProblem[] = [];
  if (passwordFile !== undefined && user === undefined)
    found.push({ path: ['passwordFile'], rule: texts().mustComeWithSmtpUser });
  if (user !== undefined && secure === 'none' && !LOOPBACK.includes(relay)) {
    found.push({
      path: ['secure'],
      rule: texts().mustBeStarttlsOrTls,
    });
  }
  return found;
}
