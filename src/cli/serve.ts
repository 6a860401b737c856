/** `stillwell serve`: the whole server, by the machine's clock, until somebody ends it. */
import { settingsHelp } from '../config/help.ts';
import type { BrokerSettings, Settings } from '../config/settings.ts';
import { programVersion, siteFolder } from '../server/install-paths.ts';
import { openServer, type RunningServer } from '../server/server.ts';
import { EXIT, UsageError, type CommandBuilder } from './command.ts';
import { DATA_OPTION, SETTINGS_OPTION, wholeNumber } from './options.ts';
import { asUsageError, locate, type Place } from './place.ts';
import { DEFAULT_SERVER } from './server-api.ts';
import { newLog, untilShutdown, type Log } from './server-log.ts';

const PORTS = { from: 0, to: 65_535 };

export const serveCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(
      'Watch your wells until you press Ctrl-C. No settings are needed: nodes publish to this computer, ' +
        `and the pages are at ${DEFAULT_SERVER}/. ` +
        'Each node needs its own user name and password: stillwell node add NAME',
    )
    .addOption(SETTINGS_OPTION)
    .addOption(DATA_OPTION)
    .option(
      '--listen <address>',
      "Address of this computer on the farm's network. Nodes with a password reach the broker there. " +
        'Phones reach the calendar of checks there.',
    )
    .option(
      '--broker-port <port>',
      'Port of the built-in broker. Default: 1883.',
      wholeNumber('--broker-port', PORTS),
    )
    .option(
      '--calendar-port <port>',
      'Port of the calendar for phones. Default: 8422.',
      wholeNumber('--calendar-port', PORTS),
    )
    .option(
      '--port <port>',
      'Port of the pages. Only this computer can open them. Default: 8420.',
      wholeNumber('--port', PORTS),
    )
    .addHelpText(
      'after',
      `
Examples:
  stillwell serve
  stillwell serve --listen 192.168.1.20 --data /srv/alder-bench

A settings file that sends mail to Anna when something is wrong:
  {"notices": [{"name": "Anna", "mail": {"to": "anna@alder-bench.example"}}],
   "smtp": {"host": "mail.alder-bench.example", "from": "wells@alder-bench.example"}}

${settingsHelp()}`,
    )
    .action(
      action(async (flags) => {
        const place = locate(io, flags);
        const log = newLog(io);
        const site = siteFolder();
        const server = await openServer({
          settings: withFlags(place.settings, { ...flags, dataDir: place.dataDir }),
          secrets: place.secrets,
          version: programVersion(),
          now: Date.now,
          log,
          allowLocal: false,
          commandOptions: place.options,
          ...(site !== undefined && { siteFolder: site }),
        }).catch((error: unknown) => {
          // A card that cannot be used is a mistake in the settings.
          throw asUsageError(error);
        });
        logStart(log, server, place);
        await untilShutdown();
        log('info', 'Ending: saving.');
        await server.close();
        return EXIT.ok;
      }),
    );
};

function logStart(log: Log, { web, brokerPort, live }: RunningServer, { options }: Place): void {
  log('info', `Pages: ${web.url}`);
  if (brokerPort !== undefined)
    log(
      'info',
      `Built-in broker: port ${brokerPort}. To make a password for a node: stillwell node add NAME${options}`,
    );
  const server = web.url === `${DEFAULT_SERVER}/` ? '' : ` --server ${web.url}`;
  if (web.calendar)
    log(
      'info',
      `Calendar for phones: ${web.calendar.host} port ${web.calendar.port}. ` +
        `To make its address, open the page "Due", or: stillwell due --subscribe${server}`,
    );
  if (live.state().nodes.size === 0)
    log('info', 'No node has sent anything yet. To see simulated wells first: stillwell demo');
}

interface Flags {
  dataDir: string;
  listen?: string | undefined;
  brokerPort?: number | undefined;
  calendarPort?: number | undefined;
  port?: number | undefined;
}

function withFlags(settings: Settings, flags: Flags): Settings {
  const { dataDir, listen, port, calendarPort } = flags;
  return {
    ...settings,
    dataDir,
    web: { ...settings.web, ...(port !== undefined && { port }) },
    broker: brokerWith(settings.broker, flags),
    calendar: {
      ...settings.calendar,
      ...(listen !== undefined && { host: listen }),
      ...(calendarPort !== undefined && { port: calendarPort }),
    },
  };
}

/** With an external broker the farm's network reaches the calendar here, and nothing else. */
function brokerWith(broker: BrokerSettings, { listen, brokerPort }: Flags): BrokerSettings {
  if (broker.kind === 'external') {
    if (brokerPort === undefined) return broker;
    throw new UsageError('Cannot use --broker-port: the settings name an external broker');
  }
  return {
    ...broker,
    ...(listen !== undefined && { host: listen }),
    ...(brokerPort !== undefined && { port: brokerPort }),
  };
}
