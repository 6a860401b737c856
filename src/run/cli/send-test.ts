/** `stillwell send-test`: one notice that says it is a test, by all ways of one recipient, and how each went. */
import { sendTest } from '../../send/send-test.ts';
import { openBrokerClient } from '../../broker/client.ts';
import type { Broker } from '../../broker/broker.ts';
import { sendersOf } from '../station.ts';
import type { Settings } from '../../config/settings.ts';
import { EXIT, Misuse, type Command } from './command.ts';
import { readOptions } from './options.ts';
import { readSettingsOrMisuse } from './serve.ts';

export const sendTestCommand: Command = {
  name: 'send-test',
  usage: 'send-test [NAME] [--settings FILE]',
  about: 'send a test notice to a recipient of the settings, by all of its ways',
  more: `NAME is a recipient's name in the settings; without it all are tried. Nothing is kept.
  --settings FILE   settings (.stillwell/settings.json where not given)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, { settings: { type: 'string' } });
    const { settings, secrets } = readSettingsOrMisuse(io.env, flags.settings);
    const [name] = names;
    const asked = settings.notices.filter((recipient) => name === undefined || recipient.name === name);
    if (asked.length === 0) {
      const known = settings.notices.map((recipient) => recipient.name).join(', ');
      throw new Misuse(
        `Cannot send a test to ${name ?? 'anybody'}: the settings name ${known || 'nobody'} under "notices"`,
      );
    }
    const broker = asked.some((recipient) => recipient.mqtt)
      ? await outsideBroker(settings, secrets.brokerPassword?.())
      : undefined;
    const senders = sendersOf({ settings, secrets }, broker);
    let failed = 0;
    try {
      for (const recipient of asked) {
        for (const { way, sent, says } of await sendTest(recipient, senders, Date.now())) {
          if (!sent) failed++;
          io.out(`${recipient.name}, ${way}: ${says}`);
        }
      }
    } finally {
      senders.close();
      await broker?.close();
    }
    return failed === 0 ? EXIT.ok : EXIT.failed;
  },
};

/** The built-in broker lives in the server: only an outside one can be reached from here. */
async function outsideBroker(settings: Settings, password: string | undefined): Promise<Broker | undefined> {
  const { broker } = settings;
  if (broker.kind === 'built-in') return undefined;
  return openBrokerClient({
    url: broker.url,
    clientId: `${broker.clientId}-test`,
    version: broker.protocolVersion,
    root: settings.root,
    onMessage: () => undefined,
    firstFailure: 'reject',
    ...(broker.username !== undefined && { user: broker.username }),
    ...(password !== undefined && { password }),
    ...(broker.caFile !== undefined && { caFile: broker.caFile }),
    ...(broker.certFile !== undefined && { certFile: broker.certFile }),
    ...(broker.keyFile !== undefined && { keyFile: broker.keyFile }),
  });
}
