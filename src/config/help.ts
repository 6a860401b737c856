/**
 * Each setting in a sentence for people, printed by the command line and laid beside the default. A
 * test holds this list and the schema together: no setting without words, no words without a
 * setting.
 */
import { CHANNELS, CHANNEL_NAMES, SHARED_PARTS } from '../channels/channels.ts';
import type { SettingHelp } from '../settings-shapes.ts';
import { variableFor } from './environment.ts';
import { CYCLES_DAYS, FALSE_ALARMS_PER_YEAR, READINGS_DAYS, REFUSED_DAYS } from './limits.ts';

/** Help of a part whose keys are relative to it. */
function under(parentKey: string, help: readonly SettingHelp[]): SettingHelp[] {
  return help.map((one) => ({ ...one, key: one.key === '' ? parentKey : `${parentKey}.${one.key}` }));
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
    description: `Who gets notices. A list; each entry has a name and at least one channel: ${CHANNEL_NAMES.join(', ')}.`,
  },
  { key: 'notices[].name', description: 'What this recipient is called here.' },
  ...CHANNEL_NAMES.flatMap((name) => under(`notices[].${name}`, CHANNELS[name].help)),
  { key: 'notices[].priorities', description: 'Which alarms: now, soon, note.', defaultText: 'now, soon' },
  { key: 'notices[].wells', description: 'Only these wells.', defaultText: 'all' },
  ...SHARED_PARTS.flatMap(({ key, help }) => under(key, help)),
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
