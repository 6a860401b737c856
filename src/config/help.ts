/**
 * Each setting in a sentence for people, printed by the command line and laid beside the default. A
 * test holds this list and the schema together: no setting without words, no words without a
 * setting.
 */
import { CHANNELS, CHANNEL_NAMES, SHARED_PARTS } from '../channels/channels.ts';
import type { SettingHelp, SettingWords } from '../settings-shapes.ts';
import { variableFor } from './environment.ts';
import { CYCLES_DAYS, FALSE_ALARMS_PER_YEAR, READINGS_DAYS, REFUSED_DAYS } from './limits.ts';
import { texts } from '../settings-texts.ts';

/** Help of a part whose keys are relative to it. */
function under(parentKey: string, help: readonly SettingHelp[]): SettingHelp[] {
  return help.map((one) => ({ ...one, key: one.key === '' ? parentKey : `${parentKey}.${one.key}` }));
}

const HELP: readonly SettingHelp[] = [
  { key: 'dataDir', description: () => texts().folderForTheDatabase, defaultText: '.stillwell' },
  { key: 'root', description: () => texts().firstPartOfEveryTopic, defaultText: 'wells' },
  { key: 'broker', description: () => texts().whereNodesSendTheBuilt },
  { key: 'broker.builtIn', description: () => texts().builtInBroker },
  {
    key: 'broker.builtIn.host',
    description: () => texts().addressItListensOnAnother,
    defaultText: '127.0.0.1',
  },
  { key: 'broker.builtIn.port', description: () => texts().portItListens, defaultText: '1883' },
  { key: 'broker.url', description: () => texts().yourOwnBrokerMqttMqtts },
  { key: 'broker.username', description: () => texts().userNameOnYourOwn },
  {
    key: 'broker.passwordFile',
    description: () => texts().fileThatHoldsItsPassword,
  },
  {
    key: 'broker.caFile',
    description: () => texts().certificateAuthorityOfYourOwn,
  },
  { key: 'broker.certFile', description: () => texts().clientCertificateWhereYourBroker },
  { key: 'broker.keyFile', description: () => texts().keyOfTheClientCertificate },
  {
    key: 'broker.clientId',
    description: () => texts().clientIdentifierTwoServers,
    defaultText: 'stillwell',
  },
  { key: 'broker.protocolVersion', description: () => texts().forMqttForMqtt, defaultText: '5' },
  {
    key: 'observe',
    description: () => texts().listenBesideAnotherServer,
    defaultText: 'false',
  },
  { key: 'web', description: () => texts().pages },
  {
    key: 'web.host',
    description: () => texts().addressOfThePagesThis,
    defaultText: '127.0.0.1',
  },
  { key: 'web.port', description: () => texts().portOfThePages, defaultText: '8420' },
  {
    key: 'calendar',
    description: () => texts().calendarOfChecksForPhones,
  },
  {
    key: 'calendar.host',
    description: () => texts().addressItListens,
    defaultText: () => texts().whereTheBuiltInBroker,
  },
  { key: 'calendar.port', description: () => texts().portItListens, defaultText: '8422' },
  { key: 'retention', description: () => texts().howLongThingsAreKept },
  {
    key: 'retention.readingsDays',
    description: () => texts().daysThatRawReadings,
    defaultText: String(READINGS_DAYS.default),
  },
  {
    key: 'retention.cyclesDays',
    description: () => texts().daysThatCyclesDailyFigures,
    defaultText: String(CYCLES_DAYS.default),
  },
  {
    key: 'retention.refusedDays',
    description: () => texts().daysThatRefusedMessages,
    defaultText: String(REFUSED_DAYS.default),
  },
  {
    key: 'falseAlarmsPerYear',
    description: () => texts().falseAlarmsAYear,
    defaultText: String(FALSE_ALARMS_PER_YEAR.default),
  },
  {
    key: 'units',
    description: () => texts().usOrMetricUnits,
    defaultText: 'us',
  },
  {
    key: 'notices',
    description: () => texts().whoGetsNoticesAList(CHANNEL_NAMES.join(', ')),
  },
  { key: 'notices[].name', description: () => texts().whatThisRecipientIsCalled },
  ...CHANNEL_NAMES.flatMap((name) => under(`notices[].${name}`, CHANNELS[name].help)),
  {
    key: 'notices[].priorities',
    description: () => texts().whichAlarmsNowSoonNote,
    defaultText: () => texts().nowSoon,
  },
  { key: 'notices[].wells', description: () => texts().onlyTheseWells, defaultText: () => texts().all },
  ...SHARED_PARTS.flatMap(({ key, help }) => under(key, help)),
  { key: 'cards', description: () => texts().cardFilesOfWells, defaultText: () => texts().none },
  { key: 'cardsDir', description: () => texts().folderEveryJson },
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
      defaultText === undefined ? '' : texts().defaultOfASetting(wordsOf(defaultText)),
      variable === undefined ? '' : texts().environmentOfASetting(variable),
    ];
    const text = [wordsOf(description), ...notes].filter((part) => part !== '').join(' ');
    return `  ${key}\n${text.replaceAll(/(.{1,88})(?:\s|$)/g, '      $1\n').trimEnd()}`;
  });
  return [texts().settingsAreInOneJson, texts().environmentOverridesTheFilePaths, '', ...lines].join('\n');
}

function wordsOf(words: SettingWords): string {
  return typeof words === 'function' ? words() : words;
}
