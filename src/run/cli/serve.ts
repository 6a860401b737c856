/** `stillwell serve`: the server, until it is told to end. */
import { loadSettings } from '../../config/load-settings.ts';
import { SettingsError, type Settings } from '../../config/settings.ts';
import { settingsHelp } from '../../config/help.ts';
import { programVersion, siteFolder } from '../place.ts';
import { openStation } from '../station.ts';
import { EXIT, Misuse, type Command } from './command.ts';
import { newLog, untilEnded } from './log.ts';
import { readOptions, readWhole } from './options.ts';

const PORTS = { from: 0, to: 65_535 };

export const serveCommand: Command = {
  name: 'serve',
  usage: 'serve [--settings FILE] [--data DIR] [--listen ADDRESS] [--broker-port PORT] [--port PORT]',
  about:
    'Watch your wells until you end it with Ctrl-C: take their readings, learn what is normal, tell what is not.',
  more: `It works without any settings: nodes send to this computer, and the pages are at http://127.0.0.1:8420/. Every node needs its
own user name and password: stillwell node add NAME

  --settings FILE     the settings file (.stillwell/settings.json unless given)
  --data DIR          the folder where everything is kept (.stillwell unless given)
  --listen ADDRESS    let nodes on the farm's own network reach the built-in broker at this address of this computer
  --broker-port PORT  the built-in broker's port (1883 unless given)
  --port PORT         the port of the pages, which open on this computer alone (8420 unless given)

A settings file that sends a mail to Anna when something is wrong:

  {"notices": [{"name": "Anna", "mail": {"to": "anna@farm.example"}}],
   "smtp": {"host": "mail.farm.example", "from": "wells@farm.example"}}

${settingsHelp()}`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      settings: { type: 'string' },
      data: { type: 'string' },
      listen: { type: 'string' },
      port: { type: 'string' },
      'broker-port': { type: 'string' },
    });
    if (names.length > 0)
      throw new Misuse(`Cannot serve "${names[0]}": serve takes options alone. Try: stillwell serve --help`);
    const { settings, secrets } = readSettingsOrMisuse(io.env, flags.settings);
    const log = newLog(io);
    const brokerPort = readWhole('broker-port', flags['broker-port'], PORTS);
    const webPort = readWhole('port', flags.port, PORTS);
    const site = siteFolder();
    const station = await openStation({
      settings: withFlags(settings, { data: flags.data, listen: flags.listen, brokerPort, webPort }),
      secrets,
      version: programVersion(),
      now: Date.now,
      log,
      allowLocal: false,
      ...(site !== undefined && { siteFolder: site }),
    }).catch((error: unknown) => {
      // A card that can't be used is the settings' mistake.
      throw asMisuse(error);
    });
    log('info', `Pages: ${station.web.url}`);
    if (station.brokerPort !== undefined)
      log(
        'info',
        `Built-in broker: port ${station.brokerPort}. A node gets its password from: stillwell node add NAME`,
      );
    if (station.live.state().nodes.size === 0)
      log('info', 'No node was heard yet. To see invented wells first: npm run demo');
    await untilEnded();
    log('info', 'Ending: saving what was worked out.');
    await station.close();
    return EXIT.ok;
  },
};

/** Settings that can't be used end the command with exit 2. */
export function readSettingsOrMisuse(
  env: Parameters<typeof loadSettings>[0],
  path: string | undefined,
): ReturnType<typeof loadSettings> {
  try {
    return loadSettings(env, path);
  } catch (error) {
    throw asMisuse(error);
  }
}

function asMisuse(error: unknown): unknown {
  return error instanceof SettingsError ? new Misuse(error.message, { cause: error }) : error;
}

interface Flags {
  data: string | undefined;
  listen: string | undefined;
  brokerPort: number | undefined;
  webPort: number | undefined;
}

function withFlags(settings: Settings, flags: Flags): Settings {
  const { broker } = settings;
  if (broker.kind === 'outside' && (flags.listen !== undefined || flags.brokerPort !== undefined)) {
    throw new Misuse('Cannot use --listen or --broker-port: the settings name an outside broker');
  }
  return {
    ...settings,
    ...(flags.data !== undefined && { dataDir: flags.data }),
    web: { ...settings.web, ...(flags.webPort !== undefined && { port: flags.webPort }) },
    broker:
      broker.kind === 'outside'
        ? broker
        : {
            ...broker,
            ...(flags.listen !== undefined && { host: flags.listen }),
            ...(flags.brokerPort !== undefined && { port: flags.brokerPort }),
          },
  };
}
