/** `stillwell serve`: the whole server, by the machine's clock, until somebody ends it. */
import { settingsHelp } from '../config/help.ts';
import type { BrokerSettings, Settings } from '../config/settings.ts';
import { programVersion, siteFolder } from '../server/install-paths.ts';
import { openServer, type RunningServer } from '../server/server.ts';
import { EXIT, UsageError, type CommandBuilder } from './command.ts';
import { dataOption, settingsOption, wholeNumber } from './options.ts';
import { asUsageError, locate, type Place } from './place.ts';
import { DEFAULT_SERVER } from './server-api.ts';
import { newLog, untilShutdown, type Log } from './server-log.ts';
import { texts } from './texts.ts';

const PORTS = { from: 0, to: 65_535 };

export const serveCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().watchYourWellsUntilYouPress(DEFAULT_SERVER))
    .addOption(settingsOption())
    .addOption(dataOption())
    .option('--listen <address>', texts().addressOfThisComputer)
    .option('--broker-port <port>', texts().portOfTheBuilt, wholeNumber('--broker-port', PORTS))
    .option('--calendar-port <port>', texts().portOfTheCalendar, wholeNumber('--calendar-port', PORTS))
    .option('--port <port>', texts().portOfThePagesOnlyThis, wholeNumber('--port', PORTS))
    .addHelpText('after', texts().examplesOfServe(settingsHelp()))
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
        log('info', texts().endingSaving);
        await server.close();
        return EXIT.ok;
      }),
    );
};

function logStart(log: Log, { web, brokerPort, live }: RunningServer, { options }: Place): void {
  log('info', texts().pages(web.url));
  if (brokerPort !== undefined) log('info', texts().builtInBrokerPort({ brokerPort, options }));
  const server = web.url === `${DEFAULT_SERVER}/` ? '' : ` --server ${web.url}`;
  if (web.calendar)
    log('info', texts().calendarForPhonesPort({ host: web.calendar.host, port: web.calendar.port, server }));
  if (live.state().nodes.size === 0) log('info', texts().noNodeHasSentAnything);
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
    throw new UsageError(texts().settingsNameAnExternalBroker);
  }
  return {
    ...broker,
    ...(listen !== undefined && { host: listen }),
    ...(brokerPort !== undefined && { port: brokerPort }),
  };
}
