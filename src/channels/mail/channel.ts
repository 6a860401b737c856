/** Notices by mail: to one address or several, through the relay in `smtp`. */
import { z } from 'zod';
import { list, MAX_LIST_ITEMS, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { failingSender } from '../sender.ts';
import { SMTP, type SmtpSettings } from './smtp.ts';
import { texts } from './texts.ts';

const address = text(
  () => texts().mustBeAMailAddress,
  (value) => /^[^\s@<>]+@[^\s@<>]+$/.test(value),
);
const shape = section({
  to: z
    .union([address, list(address, MAX_LIST_ITEMS).min(1, { error: () => texts().mustHoldAnAddress })], {
      error: () => texts().mustBeAMailAddressOr,
    })
    .transform((to) => (typeof to === 'string' ? [to] : to)),
});

export const mail = {
  shape,
  help: [
    { key: '', description: () => texts().notifyByMailNeedsSmtp },
    { key: 'to', description: () => texts().oneAddressOrAList },
  ],
  shared: SMTP,
  problems: (_own, { hasShared }) =>
    hasShared(SMTP.key) ? [] : [{ path: [], rule: texts().mustComeWithSmtpWho }],
  addresses: ({ to }) => to,
  words: (to) => texts().mailTo(to),
  async open({ shared, secret }) {
    if (!shared) return { sender: () => failingSender(texts().settingsHaveNoSmtpSection) };
    const { openMailSender } = await import('./sender.ts');
    const { passwordFile: _file, ...relay } = shared;
    const sender = openMailSender({ ...relay, ...(secret && { password: secret() }) });
    return { sender: (_own, to) => sender.to(to), close: () => sender.close() };
  },
} as const satisfies Channel<z.output<typeof shape>, SmtpSettings>;
