/** `stillwell serve`: the server, until it is told to end. */
import { loadSettings } from '../config/load-settings.ts';
import { SettingsError, type BrokerSettings, type Settings } from '../config/settings.ts';
import { settingsHelp } from '../config/help.ts';
import { programVersion, siteFolder } from '../server/install-paths.ts';
import { openServer } from '../server/server.ts';
import { EXIT, UsageError, type Command } from './command.ts';
import { newLog, untilShutdown } from './server-log.ts';
import { readOptions, readWhole } from './options.ts';

const PORTS = { from: 0, to: 65_535 };

export const serveCommand: Command = {
  name: 'serve',
  usage:
    'serve [--settings FILE] [--data DIR] [--listen ADDRESS] [--broker-port PORT] [--calendar-port PORT] [--port PORT]',
  about:
    'Watch your wells until you end it with Ctrl-C: take their readings, learn what is normal, tell what is not.',
  more: `It works without any settings: nodes send to this computer, and the pages are at http://127.0.0.1:8420/. Every node needs its
own user name and password: stillwell node add NAME

  --settings FILE       the settings file (.stillwell/settings.json unless given)
  --data DIR            the folder where everything is kept (.stillwell unless given)
  --listen ADDRESS      open this address of this computer to the farm's own network: nodes reach the built-in broker there, each
                        with its password, and phones the calendar of checks, once somebody made its address
  --broker-port PORT    the built-in broker's port (1883 unless given)
  --calendar-port PORT  the port of the calendar for phones (8422 unless given)
  --port PORT           the port of the pages, which open on this computer alone (8420 unless given)

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
      'calendar-port': { type: 'string' },
    });
    if (names.length > 0)
      throw new UsageError(
        `Cannot serve "${names[0]}": serve takes options alone. Try: stillwell serve --help`,
      );
    const { settings, secrets } = readSettingsOrUsageError(io.env, flags.settings);
    const log = newLog(io);
    const brokerPort = readWhole('broker-port', flags['broker-port'], PORTS);
    const calendarPort = readWhole('calendar-port', flags['calendar-port'], PORTS);
    const webPort = readWhole('port', flags.port, PORTS);
    const site = siteFolder();
    const station = await openServer({
      settings: withFlags(settings, { ...flags, brokerPort, calendarPort, webPort }),
      secrets,
      version: programVersion(),
      now: Date.now,
      log,
      allowLocal: false,
      ...(site !== undefined && { siteFolder: site }),
    }).catch((error: unknown) => {
      // A card that can't be used is the settings' mistake.
      throw asUsageError(error);
    });
    log('info', `Pages: ${station.web.url}`);
    if (station.brokerPort !== undefined)
      log(
        'info',
        `Built-in broker: port ${station.brokerPort}. A node gets its password from: stillwell node add NAME`,
      );
    const { calendar } = station.web;
    if (calendar)
      log(
        'info',
        `Calendar for phones: ${calendar.host} port ${calendar.port}. Its address is made on the page "Due", or by: stillwell due --subscribe`,
      );
    if (station.live.state().nodes.size === 0)
      log('info', 'No node was heard yet. To see invented wells first: npm run demo');
    await untilShutdown();
    log('info', 'Ending: saving what was worked out.');
    await station.close();
    return EXIT.ok;
  },
};

/** Settings that can't be used end the command with exit 2. */
export function readSettingsOrUsageError(
  env: Parameters<typeof loadSettings>[0],
  path: string | undefined,
): ReturnType<typeof loadSettings> {
  try {
    return loadSettings(env, path);
  } catch (error) {
    throw asUsageError(error);
  }
}

function asUsageError(error: unknown): unknown {
  return error instanceof SettingsError ? new UsageError(error.message, { cause: error }) : error;
}

interface Flags {
  data?: string | undefined;
  listen?: string | undefined;
  brokerPort: number | undefined;
  calendarPort: number | undefined;
  webPort: number | undefined;
}

function withFlags(settings: Settings, flags: Flags): Settings {
  const { listen } = flags;
  return {
    ...settings,
    ...(flags.data !== undefined && { dataDir: flags.data }),
    web: { ...settings.web, ...(flags.webPort !== undefined && { port: flags.webPort }) },
    broker: brokerWith(settings.broker, flags),
    calendar: {
      ...settings.calendar,
      ...(listen !== undefined && { host: listen }),
      ...(flags.calendarPort !== undefined && { port: flags.calendarPort }),
    },
  };
}

/** With an outside broker the farm's network reaches the calendar here, and nothing else. */
function brokerWith(broker: BrokerSettings, { listen, brokerPort }: Flags): BrokerSettings {
  if (broker.kind === 'external') {
    if (brokerPort === undefined) return broker;
    throw new UsageError('Cannot use --broker-port: the settings name an outside broker');
  }
  return {
    ...broker,
    ...(listen !== undefined && { host: listen }),
    ...(brokerPort !== undefined && { port: brokerPort }),
  };
}
