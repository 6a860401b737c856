/** Rules between settings: what is right alone and wrong together. */
import { CHANNELS, CHANNEL_NAMES, SHARED_PARTS, type SharedSettings } from '../channels/channels.ts';
import type { SettingsProblem } from '../settings-shapes.ts';
import type { SettingsInput } from './schema.ts';

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
        rule: 'must stand with broker.url: it is for an outside broker',
      });
    }
    return problems;
  }
  const address = new URL(url);
  if (builtIn) problems.push({ path: ['broker', 'url'], rule: 'must not stand beside broker.builtIn' });
  if (address.password !== '' || address.username !== '') {
    problems.push({
      path: ['broker', 'url'],
      rule: 'must hold no user or password: they go to username and passwordFile',
    });
  }
  const encrypted = ['mqtts:', 'wss:'].includes(address.protocol);
  for (const key of ['caFile', 'certFile', 'keyFile'] as const) {
    if (!encrypted && external[key] !== undefined) {
      problems.push({ path: ['broker', key], rule: 'must stand with an mqtts or wss address' });
    }
  }
  if ((external.certFile === undefined) !== (external.keyFile === undefined)) {
    problems.push({
      path: ['broker', external.certFile === undefined ? 'keyFile' : 'certFile'],
      rule: 'must come with its other half: certFile and keyFile',
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
        rule: 'must be unlike the other names: what was told to whom is kept by name',
      });
    }
    const used = CHANNEL_NAMES.filter((name) => recipient[name] !== undefined);
    if (used.length === 0)
      problems.push({ path, rule: `must hold at least one of ${CHANNEL_NAMES.join(', ')}` });
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
