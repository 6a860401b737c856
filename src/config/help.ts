/**
 * Each setting in a sentence for people, printed by the command line and laid beside the default. A test holds this list and the
 * schema together: no setting without words, no words without a setting.
 */
import { variableFor } from './environment.ts';
import { CYCLES_DAYS, FALSE_ALARMS_PER_YEAR, READINGS_DAYS, REFUSED_DAYS } from './limits.ts';

interface SettingHelp {
  /** Path in the file; `[]` stands for each entry of a list. */
  key: string;
  what: string;
  usual?: string;
}

const HELP: readonly SettingHelp[] = [
  { key: 'dataDir', what: 'Folder for the database and everything kept.', usual: '.stillwell' },
  { key: 'root', what: 'First part of every topic.', usual: 'wells' },
  { key: 'broker', what: 'Where nodes send: the built-in broker, or one that you run already.' },
  { key: 'broker.builtIn', what: 'The built-in broker. It is used unless broker.url is given.' },
  {
    key: 'broker.builtIn.host',
    what: 'Address it listens on. Another than loopback opens it to nodes with a credential.',
    usual: '127.0.0.1',
  },
  { key: 'broker.builtIn.port', what: 'Port it listens on.', usual: '1883' },
  { key: 'broker.url', what: 'Your own broker: mqtt://, mqtts://, ws:// or wss://.' },
  { key: 'broker.username', what: 'User name on your own broker.' },
  {
    key: 'broker.passwordFile',
    what: 'File that holds its password. Or put it into STILLWELL_BROKER_PASSWORD.',
  },
  {
    key: 'broker.caFile',
    what: 'Certificate authority of your own broker, where the system does not know it.',
  },
  { key: 'broker.certFile', what: 'Client certificate, where your broker wants one.' },
  { key: 'broker.keyFile', what: 'Key of the client certificate.' },
  {
    key: 'broker.clientId',
    what: 'Client identifier. Two servers on one broker need two.',
    usual: 'stillwell',
  },
  { key: 'broker.protocolVersion', what: '5 for MQTT 5, 4 for MQTT 3.1.1.', usual: '5' },
  { key: 'observe', what: 'true: listen beside another server and never answer nodes.', usual: 'false' },
  { key: 'web', what: 'The pages.' },
  { key: 'web.host', what: 'Address of the pages. This machine alone, for now.', usual: '127.0.0.1' },
  { key: 'web.port', what: 'Port of the pages.', usual: '8420' },
  {
    key: 'calendar',
    what: 'The calendar of checks for phones on the farm’s own network. It answers only at the address that the pages make.',
  },
  {
    key: 'calendar.host',
    what: 'Address it listens on. On loopback it stays closed.',
    usual: 'where the built-in broker listens',
  },
  { key: 'calendar.port', what: 'Port it listens on.', usual: '8422' },
  { key: 'retention', what: 'How long things are kept.' },
  {
    key: 'retention.readingsDays',
    what: 'Days that raw readings are kept.',
    usual: String(READINGS_DAYS.usual),
  },
  {
    key: 'retention.cyclesDays',
    what: 'Days that cycles, daily figures and alarms are kept.',
    usual: String(CYCLES_DAYS.usual),
  },
  {
    key: 'retention.refusedDays',
    what: 'Days that refused messages are kept for a look.',
    usual: String(REFUSED_DAYS.usual),
  },
  { key: 'settleDays', what: 'Days within which late readings still count in full. Fixed.', usual: '7' },
  {
    key: 'falseAlarmsPerYear',
    what: 'False alarms a year that one whole well may give by chance; fewer finds small changes later. A card may say otherwise.',
    usual: String(FALSE_ALARMS_PER_YEAR.usual),
  },
  { key: 'units', what: 'us (psi, gallons, feet) or metric (kPa, litres, metres).', usual: 'us' },
  {
    key: 'notices',
    what: 'Who is told. A list; each entry has a name and at least one way: mail, webhook, mqtt, command.',
  },
  { key: 'notices[].name', what: 'What this recipient is called here.' },
  { key: 'notices[].mail', what: 'Tell by mail. Needs smtp.' },
  { key: 'notices[].mail.to', what: 'One address or a list.' },
  { key: 'notices[].webhook', what: 'Tell by an HTTP request, signed as Standard Webhooks says.' },
  { key: 'notices[].webhook.url', what: 'Where it goes.' },
  { key: 'notices[].webhook.secretFile', what: 'File with the signing secret (whsec_…).' },
  {
    key: 'notices[].webhook.secretEnv',
    what: 'Or the environment variable that holds it (name it STILLWELL_SECRET_…).',
  },
  { key: 'notices[].mqtt', what: 'Tell by a message on the broker, for a siren or a light.' },
  { key: 'notices[].mqtt.topic', what: 'The topic; not under the root of the nodes.' },
  {
    key: 'notices[].command',
    what: 'Run a program of this machine. It gets the notice as JSON on its standard input.',
  },
  { key: 'notices[].command.program', what: 'Path of the program.' },
  { key: 'notices[].command.args', what: 'Its arguments.', usual: 'none' },
  { key: 'notices[].priorities', what: 'Which alarms: now, soon, note.', usual: 'now, soon' },
  { key: 'notices[].wells', what: 'Only these wells.', usual: 'all' },
  { key: 'smtp', what: 'The mail server that takes notices.' },
  { key: 'smtp.host', what: 'Its name or address. A relay on the farm network will do.' },
  { key: 'smtp.port', what: 'Its port.', usual: '587; 465 with tls, 25 with none' },
  {
    key: 'smtp.secure',
    what: 'starttls, tls, or none for a relay that asks for no user.',
    usual: 'starttls',
  },
  { key: 'smtp.user', what: 'User name, where it asks for one.' },
  { key: 'smtp.passwordFile', what: 'File with the password. Or put it into STILLWELL_SMTP_PASSWORD.' },
  { key: 'smtp.from', what: 'Sender of the mail.' },
  { key: 'cards', what: 'Card files of wells, a list.', usual: 'none' },
  { key: 'cardsDir', what: 'A folder: every .json in it is a card.' },
];

/** Paths of all settings that have words. */
export function helpKeys(): string[] {
  return HELP.map(({ key }) => key);
}

/** Keys that may stand in the object at `path`. */
export function knownKeys(path: readonly (string | number)[]): string[] {
  const inside = path.reduce<string>(
    (sum, part) => (typeof part === 'number' ? `${sum}[]` : sum === '' ? part : `${sum}.${part}`),
    '',
  );
  const start = inside === '' ? '' : `${inside}.`;
  return helpKeys()
    .filter((key) => key.startsWith(start) && !key.slice(start.length).includes('.') && key !== inside)
    .map((key) => key.slice(start.length));
}

/** The settings for people, one a paragraph, as `--help` prints them. */
export function settingsHelp(): string {
  const lines = HELP.map(({ key, what, usual }) => {
    const variable = variableFor(key);
    const more = [
      usual === undefined ? '' : `Unless set: ${usual}.`,
      variable === undefined ? '' : `Environment: ${variable}.`,
    ];
    return `  ${key}\n      ${[what, ...more].filter((part) => part !== '').join(' ')}`;
  });
  return [
    'Settings stand in one JSON file, .stillwell/settings.json unless STILLWELL_SETTINGS names another.',
    'The environment wins over the file. Paths start from the folder that the server is started in.',
    '',
    ...lines,
  ].join('\n');
}
