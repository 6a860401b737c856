/**
 * Each setting in a sentence for people, printed by the command line and laid beside the default. A
 * test holds this list and the schema together: no setting without words, no words without a
 * setting.
 */
import { variableFor } from './environment.ts';
import { CYCLES_DAYS, FALSE_ALARMS_PER_YEAR, READINGS_DAYS, REFUSED_DAYS } from './limits.ts';

interface SettingHelp {
  /** Path in the file; `[]` stands for each entry of a list. */
  key: string;
  description: string;
  defaultText?: string;
}

const HELP: readonly SettingHelp[] = [
  { key: 'dataDir', description: 'Folder for the database and everything kept.', defaultText: '.stillwell' },
  { key: 'root', description: 'First part of every topic.', defaultText: 'wells' },
  { key: 'broker', description: 'Where nodes send: the built-in broker, or one that you run already.' },
  { key: 'broker.builtIn', description: 'The built-in broker. It is used unless broker.url is given.' },
  {
    key: 'broker.builtIn.host',
    description: 'Address it listens on. Another than loopback opens it to nodes with a credential.',
    defaultText: '127.0.0.1',
  },
  { key: 'broker.builtIn.port', description: 'Port it listens on.', defaultText: '1883' },
  { key: 'broker.url', description: 'Your own broker: mqtt://, mqtts://, ws:// or wss://.' },
  { key: 'broker.username', description: 'User name on your own broker.' },
  {
    key: 'broker.passwordFile',
    description: 'File that holds its password. Or put it into STILLWELL_BROKER_PASSWORD.',
  },
  {
    key: 'broker.caFile',
    description: 'Certificate authority of your own broker, where the system does not know it.',
  },
  { key: 'broker.certFile', description: 'Client certificate, where your broker wants one.' },
  { key: 'broker.keyFile', description: 'Key of the client certificate.' },
  {
    key: 'broker.clientId',
    description: 'Client identifier. Two servers on one broker need two.',
    defaultText: 'stillwell',
  },
  { key: 'broker.protocolVersion', description: '5 for MQTT 5, 4 for MQTT 3.1.1.', defaultText: '5' },
  {
    key: 'observe',
    description: 'true: listen beside another server and never answer nodes.',
    defaultText: 'false',
  },
  { key: 'web', description: 'The pages.' },
  {
    key: 'web.host',
    description: 'Address of the pages. This machine alone, for now.',
    defaultText: '127.0.0.1',
  },
  { key: 'web.port', description: 'Port of the pages.', defaultText: '8420' },
  {
    key: 'calendar',
    description:
      'The calendar of checks for phones on the farm’s own network. It answers only at the address that the pages make.',
  },
  {
    key: 'calendar.host',
    description: 'Address it listens on. On loopback it stays closed.',
    defaultText: 'where the built-in broker listens',
  },
  { key: 'calendar.port', description: 'Port it listens on.', defaultText: '8422' },
  { key: 'retention', description: 'How long things are kept.' },
  {
    key: 'retention.readingsDays',
    description: 'Days that raw readings are kept.',
    defaultText: String(READINGS_DAYS.default),
  },
  {
    key: 'retention.cyclesDays',
    description: 'Days that cycles, daily figures, baselines, ended alarms and sent notices are kept.',
    defaultText: String(CYCLES_DAYS.default),
  },
  {
    key: 'retention.refusedDays',
    description: 'Days that refused messages are kept.',
    defaultText: String(REFUSED_DAYS.default),
  },
  {
    key: 'falseAlarmsPerYear',
    description:
      'False alarms a year that one whole well may give by chance; fewer finds small changes later. A card may say otherwise.',
    defaultText: String(FALSE_ALARMS_PER_YEAR.default),
  },
  {
    key: 'units',
    description: 'us (psi, gallons, feet) or metric (kPa, liters, meters).',
    defaultText: 'us',
  },
  {
    key: 'notices',
    description:
      'Who gets notices. A list; each entry has a name and at least one channel: mail, webhook, mqtt, command.',
  },
  { key: 'notices[].name', description: 'What this recipient is called here.' },
  { key: 'notices[].mail', description: 'Notify by mail. Needs smtp.' },
  { key: 'notices[].mail.to', description: 'One address or a list.' },
  { key: 'notices[].webhook', description: 'Notify by an HTTP request, signed as Standard Webhooks says.' },
  { key: 'notices[].webhook.url', description: 'Where it goes.' },
  { key: 'notices[].webhook.secretFile', description: 'File with the signing secret (whsec_…).' },
  {
    key: 'notices[].webhook.secretEnv',
    description: 'Or the environment variable that holds it (name it STILLWELL_SECRET_…).',
  },
  { key: 'notices[].mqtt', description: 'Notify by a message on the broker, for a siren or a light.' },
  { key: 'notices[].mqtt.topic', description: 'The topic; not under the root of the nodes.' },
  {
    key: 'notices[].command',
    description: 'Run a program of this machine. It gets the notice as JSON on its standard input.',
  },
  { key: 'notices[].command.program', description: 'Path of the program.' },
  { key: 'notices[].command.args', description: 'Its arguments.', defaultText: 'none' },
  { key: 'notices[].priorities', description: 'Which alarms: now, soon, note.', defaultText: 'now, soon' },
  { key: 'notices[].wells', description: 'Only these wells.', defaultText: 'all' },
  { key: 'smtp', description: 'The mail server that takes notices.' },
  { key: 'smtp.host', description: 'Its name or address. A relay on the farm network will do.' },
  { key: 'smtp.port', description: 'Its port.', defaultText: '587; 465 with tls, 25 with none' },
  {
    key: 'smtp.secure',
    description: 'starttls, tls, or none for a relay that asks for no user.',
    defaultText: 'starttls',
  },
  { key: 'smtp.user', description: 'User name, where it asks for one.' },
  {
    key: 'smtp.passwordFile',
    description: 'File with the password. Or put it into STILLWELL_SMTP_PASSWORD.',
  },
  { key: 'smtp.from', description: 'Sender of the mail.' },
  { key: 'cards', description: 'Card files of wells, a list.', defaultText: 'none' },
  { key: 'cardsDir', description: 'A folder: every .json in it is a card.' },
];

/** Paths of all settings that have words. */
export function helpKeys(): string[] {
  return HELP.map(({ key }) => key);
}

/** Keys that may stand in the object at `path`. */
export function knownKeys(path: readonly (string | number)[]): string[] {
  const parentPath = path.reduce<string>(
    (sum, part) => (typeof part === 'number' ? `${sum}[]` : sum === '' ? part : `${sum}.${part}`),
    '',
  );
  const prefix = parentPath === '' ? '' : `${parentPath}.`;
  return helpKeys()
    .filter((key) => key.startsWith(prefix) && !key.slice(prefix.length).includes('.') && key !== parentPath)
    .map((key) => key.slice(prefix.length));
}

/** The settings for people, one a paragraph, as `--help` prints them. */
export function settingsHelp(): string {
  const lines = HELP.map(({ key, description, defaultText }) => {
    const variable = variableFor(key);
    const notes = [
      defaultText === undefined ? '' : `Default: ${defaultText}.`,
      variable === undefined ? '' : `Environment: ${variable}.`,
    ];
    const text = [description, ...notes].filter((part) => part !== '').join(' ');
    return `  ${key}\n${text.replaceAll(/(.{1,88})(?:\s|$)/g, '      $1\n').trimEnd()}`;
  });
  return [
    'Settings are in one JSON file: .stillwell/settings.json, or the one in STILLWELL_SETTINGS.',
    'The environment overrides the file. Paths are relative to the folder where the server starts.',
    '',
    ...lines,
  ].join('\n');
}
