/**
 * `stillwell send-test`: one notice that says it is a test, by all ways of one recipient, and how
 * each went.
 */
import { sendTest } from '../channels/send-test.ts';
import { openBrokerClient } from '../mqtt/client.ts';
import type { Broker } from '../mqtt/broker.ts';
import { sendersOf } from '../server/server.ts';
import type { RecipientSettings } from '../config/settings.ts';
import { externalClientSettings } from '../server/open-broker.ts';
import { EXIT, UsageError, type CommandBuilder, type Io } from './command.ts';
import { settingsOption } from './options.ts';
import { locate, type Place } from './place.ts';
import { texts } from './texts.ts';

export const sendTestCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().sendATestNoticeToA)
    .argument('[name]', texts().nameOfTheRecipientUnder)
    .addOption(settingsOption())
    .addHelpText('after', texts().examplesOfSendtest)
    .action(
      action(async (name, flags) => {
        const place = locate(io, flags);
        return sendTests(io, place, recipientsNamed(place, name));
      }),
    );
};

/** @throws UsageError if the settings name nobody of this name. */
function recipientsNamed({ settings: { notices } }: Place, name: string | undefined): RecipientSettings[] {
  const recipients = notices.filter((recipient) => name === undefined || recipient.name === name);
  if (recipients.length > 0) return recipients;
  const known = notices.map((recipient) => recipient.name).join(', ');
  throw new UsageError(
    texts().cannotSendATestNotice(name === undefined ? '' : texts().to(name)) +
      (known === '' ? texts().settingsNameNoRecipientAdd : texts().settingsName(known)),
  );
}

async function sendTests(io: Io, place: Place, recipients: readonly RecipientSettings[]): Promise<number> {
  const broker = recipients.some((recipient) => recipient.mqtt) ? await brokerFor(place) : undefined;
  const senders = await sendersOf(place, broker);
  let failed = 0;
  try {
    for (const recipient of recipients) {
      // One after the other, so that the lines keep their order.
      // oxlint-disable-next-line no-await-in-loop
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
}

/**
 * Where a notice by MQTT can go from here: an external broker; the built-in one takes notices from
 * the running server alone.
 */
async function brokerFor({ settings, secrets }: Place): Promise<Pick<Broker, 'publish' | 'close'>> {
  const { broker, root } = settings;
  if (broker.kind === 'built-in') return unavailableBroker(texts().builtInBrokerIsPart);
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
