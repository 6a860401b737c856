/** Rules between settings: what is right alone and wrong together. */
import type { SettingsInput } from './schema.ts';

export interface SettingsProblem {
  path: readonly (string | number)[];
  rule: string;
}

const NOTICE_CHANNELS = ['mail', 'webhook', 'mqtt', 'command'] as const;

/** Hosts that never leave this machine. */
const LOOPBACK: readonly string[] = ['127.0.0.1', '::1', 'localhost'];

/** The first lapse, or undefined. */
export function firstCrossProblem(settings: SettingsInput): SettingsProblem | undefined {
  return [...brokerProblems(settings), ...recipientProblems(settings), ...smtpProblems(settings)][0];
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

function recipientProblems({ notices, smtp, root }: SettingsInput): SettingsProblem[] {
  return notices.flatMap((recipient, at) => {
    const problems: SettingsProblem[] = [];
    const path = ['notices', at];
    if (notices.findIndex((other) => other.name === recipient.name) !== at) {
      problems.push({
        path: [...path, 'name'],
        rule: 'must be unlike the other names: what was told to whom is kept by name',
      });
    }
    if (NOTICE_CHANNELS.every((way) => recipient[way] === undefined)) {
      problems.push({ path, rule: `must hold at least one of ${NOTICE_CHANNELS.join(', ')}` });
    }
    if (recipient.mail && !smtp)
      problems.push({ path: [...path, 'mail'], rule: 'must come with smtp: who takes the mail?' });
    const { webhook, mqtt } = recipient;
    if (webhook && (webhook.secretFile === undefined) === (webhook.secretEnv === undefined)) {
      problems.push({ path: [...path, 'webhook'], rule: 'must hold one of secretFile, secretEnv' });
    }
    if (mqtt && (mqtt.topic === root || mqtt.topic.startsWith(`${root}/`))) {
      problems.push({
        path: [...path, 'mqtt', 'topic'],
        rule: `must not lie under ${root}/, where nodes talk`,
      });
    }
    return problems;
  });
}

function smtpProblems({ smtp }: SettingsInput): SettingsProblem[] {
  if (!smtp) return [];
  const problems: SettingsProblem[] = [];
  if (smtp.passwordFile !== undefined && smtp.user === undefined) {
    problems.push({ path: ['smtp', 'passwordFile'], rule: 'must come with smtp.user' });
  }
  if (smtp.user !== undefined && smtp.secure === 'none' && !LOOPBACK.includes(smtp.host)) {
    problems.push({
      path: ['smtp', 'secure'],
      rule: 'must be starttls or tls where a user signs in: else the password can be read on the way',
    });
  }
  return problems;
}
