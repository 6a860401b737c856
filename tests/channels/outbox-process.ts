/**
 * A process of its own for the test that kills it: a real store, the outbox, and webhooks to the
 * address given. It makes its rows at the first start, and ends by itself with code 0 when none is
 * due any more.
 */
import { noticeRows } from './support.ts';
import { openOutbox } from '../../src/channels/outbox.ts';
import { webhookSender } from '../../src/channels/webhook/sender.ts';
import { openStore } from '../../src/store/open-store.ts';

const [path = '', url = '', rows = '0'] = process.argv.slice(2);
const store = openStore(path);
if ((await store.notices({})).length === 0)
  await store.commit(noticeRows(Number(rows)).map((row) => ({ change: 'notice', row })));
const send = webhookSender({ url, secret: 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw' });
const outbox = openOutbox({
  store: {
    due: (limit) => store.notices({ state: 'due', limit }),
    mark: (row) => store.commit([{ change: 'notice', row }]),
  },
  senderFor: () => send,
  onSettled: () => void endWhenDone(),
});
// The outbox keeps no process alive by itself; here it must until all is sent.
const alive = setInterval(() => void endWhenDone(), 100);

async function endWhenDone(): Promise<void> {
  if ((await store.notices({ state: 'due', limit: 1 })).length > 0) return;
  clearInterval(alive);
  await outbox.close();
  await store.close();
  process.exit(0);
}
