/** `stillwell send-test`: one notice that says it is a test, by all ways of one recipient, and how each went. */
import { sendTest } from '../channels/send-test.ts';
import { openBrokerClient } from '../mqtt/client.ts';
import type { Broker } from '../mqtt/broker.ts';
import { sendersOf } from '../server/server.ts';
import type { LoadedSettings } from '../config/load-settings.ts';
import { externalClientSettings } from '../server/open-broker.ts';
import { EXIT, UsageError, type Command } from './command.ts';
import { readOptions } from './options.ts';
import { readSettingsOrUsageError } from './serve.ts';

export const sendTestCommand: Command = {
  name: 'send-test',
  usage: 'send-test [NAME] [--settings FILE]',
  about: 'Send a test notice to somebody whom the settings name, by all of the ways given there.',
  more: `NAME is the name of one who is told, as it stands under "notices" in the settings; without it all are tried. Look afterwards
whether it has come: only that proves it.

  --settings FILE  the settings file (.stillwell/settings.json unless given)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, { settings: { type: 'string' } });
    const [name, ...rest] = names;
    if (rest.length > 0) throw new UsageError(`Cannot read "${rest[0]}": one name at most is expected`);
    const loaded = readSettingsOrUsageError(io.env, flags.settings);
    const { settings } = loaded;
    const recipients = settings.notices.filter((recipient) => name === undefined || recipient.name === name);
    if (recipients.length === 0) {
      const known = settings.notices.map((recipient) => recipient.name).join(', ');
      throw new UsageError(
        `Cannot send a test to ${name === undefined ? 'anybody' : `"${name}"`}: the settings name ${known || 'nobody'} under "notices"`,
      );
    }
    const broker = recipients.some((recipient) => recipient.mqtt) ? await brokerFor(loaded) : undefined;
    const senders = sendersOf(loaded, broker);
    let failed = 0;
    try {
      for (const recipient of recipients) {
        for (const { channel, sent, text } of await sendTest(recipient, senders, Date.now())) {
          if (!sent) failed++;
          io.out(`${recipient.name}, ${channel}: ${text}`);
        }
      }
    } finally {
      senders.close();
      await broker?.close();
    }
    return failed === 0 ? EXIT.ok : EXIT.failed;
  },
};

/** Where a notice by MQTT can go from here: an outside broker; the built-in one takes notices from the running server alone. */
async function brokerFor({ settings, secrets }: LoadedSettings): Promise<Pick<Broker, 'publish' | 'close'>> {
  const { broker, root } = settings;
  if (broker.kind === 'built-in')
    return unavailableBroker(
      'the built-in broker is part of the running server and takes notices from it alone, so this way cannot be tried from here',
    );
  const client = externalClientSettings(broker, secrets);
  try {
    return await openBrokerClient({
      ...client,
      clientId: `${client.clientId}-test-${process.pid}`,
      root,
      onMessage: () => undefined,
      firstFailure: 'reject',
      temporary: true,
    });
  } catch (error) {
    // The other ways are still worth trying.
    return unavailableBroker(error instanceof Error ? error.message : String(error));
  }
}

function unavailableBroker(why: string): Pick<Broker, 'publish' | 'close'> {
  return { publish: () => Promise.reject(new Error(why)), close: () => Promise.resolve() };
}
