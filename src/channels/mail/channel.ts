/** Notices by mail: to one address or several, through the relay in `smtp`. */
import { z } from 'zod';
import { list, MAX_LIST_ITEMS, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { failingSender } from '../sender.ts';
import { SMTP, type SmtpSettings } from './smtp.ts';

const address = text('must be a mail address', (value) => /^[^\s@<>]+@[^\s@<>]+$/.test(value));
const shape = section({
  to: z
    .union([address, list(address, MAX_LIST_ITEMS).min(1, { error: 'must hold an address' })], {
      error: 'must be a mail address, or a list of them',
    })
    .transform((to) => (typeof to === 'string' ? [to] : to)),
});

export const mail = {
  shape,
  help: [
    { key: '', description: 'Notify by mail. Needs smtp.' },
    { key: 'to', description: 'One address or a list.' },
  ],
  shared: SMTP,
  problems: (_own, { hasShared }) =>
    hasShared(SMTP.key) ? [] : [{ path: [], rule: 'must come with smtp: who takes the mail?' }],
  addresses: ({ to }) => to,
  words: (to) => `mail to ${to}`,
  async open({ shared, secret }) {
    if (!shared) return { sender: () => failingSender('the settings have no smtp section') };
    const { openMailSender } = await import('./sender.ts');
    const { passwordFile: _file, ...relay } = shared;
    const sender = openMailSender({ ...relay, ...(secret && { password: secret() }) });
    return { sender: (_own, to) => sender.to(to), close: () => sender.close() };
  },
} as const satisfies Channel<z.output<typeof shape>, SmtpSettings>;
