/** Rules between settings: what is right alone and wrong together. */
import { CHANNELS, CHANNEL_NAMES, SHARED_PARTS, type SharedSettings } from '../channels/channels.ts';
import type { SettingsProblem } from '../settings-shapes.ts';
import type { SettingsInput } from './schema.ts';
import { texts } from '../settings-texts.ts';

/** The first lapse, or undefined. */
export function firstCrossProblem(settings: SettingsInput): SettingsProblem | undefined {
  return [...brokerProblems(settings), ...recipientProblems(settings), ...sharedProblems(settings)][0];
}

function brokerProblems({ broker }: SettingsInput): SettingsProblem[] {
  const problems: SettingsProblem[] = [];
  const { builtIn, url, ...external } = broker;
  if (url === undefined) {
    for (const key of Object.keys(external)) {
      problems.push({
        path: ['broker', key],
        rule: texts().mustStandWithBrokerUrl,
      });
    }
    return problems;
  }
  const address = new URL(url);
  if (builtIn) problems.push({ path: ['broker', 'url'], rule: texts().mustNotStandBesideBroker });
  if (address.password !== '' || address.username !== '') {
    problems.push({
      path: ['broker', 'url'],
      rule: texts().mustHoldNoUser,
    });
  }
  const encrypted = ['mqtts:', 'wss:'].includes(address.protocol);
  for (const key of ['caFile', 'certFile', 'keyFile'] as const) {
    if (!encrypted && external[key] !== undefined) {
      problems.push({ path: ['broker', key], rule: texts().mustStandWithAnMqtts });
    }
  }
  if ((external.certFile === undefined) !== (external.keyFile === undefined)) {
    problems.push({
      path: ['broker', external.certFile === undefined ? 'keyFile' : 'certFile'],
      rule: texts().mustComeWithItsOther,
    });
  }
  return problems;
}

function recipientProblems(settings: SettingsInput): SettingsProblem[] {
  const { notices, root } = settings;
  const others = { root, hasShared: (key: string) => Object.hasOwn(settings, key) };
  return notices.flatMap((recipient, at) => {
    const path = ['notices', at];
    const problems: SettingsProblem[] = [];
    if (notices.findIndex((other) => other.name === recipient.name) !== at) {
      problems.push({
        path: [...path, 'name'],
        rule: texts().mustBeUnlikeTheOther,
      });
    }
    const used = CHANNEL_NAMES.filter((name) => recipient[name] !== undefined);
    if (used.length === 0)
      problems.push({ path, rule: texts().mustHoldAtLeastOne(CHANNEL_NAMES.join(', ')) });
    const own = used.flatMap((name) =>
      under([...path, name], CHANNELS[name].problems?.(recipient[name]!, others)),
    );
    return [...problems, ...own];
  });
}

function sharedProblems(settings: SettingsInput): SettingsProblem[] {
  return SHARED_PARTS.flatMap((part) => {
    const shared = settings[part.key as keyof SharedSettings];
    return shared === undefined ? [] : under([part.key], part.problems?.(shared));
  });
}

/** Problems of a part, with paths from the top. */
function under(path: readonly (string | number)[], problems: SettingsProblem[] = []): SettingsProblem[] {
  return problems.map((problem) => ({ ...problem, path: [...path, ...problem.path] }));
}
