/**
 * The shape of the settings file. Every rule carries its own words ("must be …"), because the one
 * who reads them has a text editor open and a well to mind. Rules between keys stand in
 * ./cross-checks.ts.
 */
import { z } from 'zod';
import { PRIORITIES } from '../../shared/text/en/alarms/kinds.ts';
import { isName } from '../core/domain/parse-context.ts';
import {
  CYCLES_DAYS,
  FALSE_ALARMS_PER_YEAR,
  MAX_TEXT_CHARACTERS,
  MAX_LIST_ITEMS,
  MAX_RECIPIENTS,
  PORTS,
  READINGS_DAYS,
  REFUSED_DAYS,
} from './limits.ts';

/** Text without control characters that passes `isValid`. */
function text(rule: string, isValid: (value: string) => boolean = () => true) {
  const isPrintable = (value: string): boolean =>
    value.trim() !== '' && value.length <= MAX_TEXT_CHARACTERS && !/\p{Cc}/u.test(value);
  return z.string({ error: rule }).refine((value) => isPrintable(value) && isValid(value), { error: rule });
}

function number(span: { min: number; max: number }) {
  const rule = `must be a number from ${span.min} to ${span.max}`;
  return z.number({ error: rule }).min(span.min, { error: rule }).max(span.max, { error: rule });
}

function integer(span: { min: number; max: number }) {
  const rule = `must be a whole number from ${span.min} to ${span.max}`;
  return z.int({ error: rule }).min(span.min, { error: rule }).max(span.max, { error: rule });
}

function oneOf<const T extends string | number | boolean>(...options: T[]) {
  return z.literal(options, { error: `must be one of ${options.join(', ')}` });
}

function list<T extends z.ZodType>(item: T, max: number) {
  const rule = `must be a list of at most ${max}`;
  return z.array(item, { error: rule }).max(max, { error: rule });
}

/**
 * Only the wrong type gets these words; an unknown key is told by ./read-settings.ts, which knows
 * the known ones.
 */
function section<T extends z.core.$ZodLooseShape>(shape: T) {
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? undefined : 'must be an object in braces'),
  });
}

const file = text('must be the path of a file');
const host = text('must be a host name or an address', (value) => /^[A-Za-z0-9.:_-]+$/.test(value));
const mailAddress = text('must be a mail address', (value) => /^[^\s@<>]+@[^\s@<>]+$/.test(value));
const sender = text('must be a mail address, or a name and <an address>', (value) =>
  /^([^<>@]*<[^\s@<>]+@[^\s@<>]+>|[^\s@<>]+@[^\s@<>]+)$/.test(value),
);

/** A topic to publish to: no wildcards (MQTT 5, 4.7.1), and no broker's own ($…). */
function isTopic(value: string): boolean {
  return !/[+#]/.test(value) && !/^[$/]|\/$/.test(value);
}

function isUrlOf(value: string, protocols: readonly string[]): boolean {
  return URL.canParse(value) && protocols.includes(new URL(value).protocol);
}

const broker = section({
  builtIn: z.exactOptional(
    section({
      host: host.default('127.0.0.1'),
      port: integer(PORTS).default(1883),
    }),
  ),
  url: z.exactOptional(
    text('must be an address such as mqtts://broker.example:8883 (mqtt, mqtts, ws or wss)', (value) =>
      isUrlOf(value, ['mqtt:', 'mqtts:', 'ws:', 'wss:']),
    ),
  ),
  username: z.exactOptional(text('must be a user name')),
  passwordFile: z.exactOptional(file),
  caFile: z.exactOptional(file),
  certFile: z.exactOptional(file),
  keyFile: z.exactOptional(file),
  clientId: z.exactOptional(
    text('must be 1 to 128 of letters, digits, - and _', (value) => /^[\w-]{1,128}$/.test(value)),
  ),
  protocolVersion: z.exactOptional(oneOf(5, 4)),
});

const recipient = section({
  name: text('must be a name of 1 to 60 characters', (value) => value.length <= 60),
  mail: z.exactOptional(
    section({
      to: z.union(
        [mailAddress, list(mailAddress, MAX_LIST_ITEMS).min(1, { error: 'must hold an address' })],
        {
          error: 'must be a mail address, or a list of them',
        },
      ),
    }),
  ),
  webhook: z.exactOptional(
    section({
      url: text('must be an http or https address', (value) => isUrlOf(value, ['http:', 'https:'])),
      secretFile: z.exactOptional(file),
      secretEnv: z.exactOptional(
        text('must be the name of an environment variable', (value) => /^[A-Z][A-Z0-9_]*$/.test(value)),
      ),
    }),
  ),
  mqtt: z.exactOptional(section({ topic: text('must be a topic without + # and $', isTopic) })),
  command: z.exactOptional(
    section({
      program: text('must be the path of a program'),
      args: list(
        z.string({ error: 'must be text' }).max(MAX_TEXT_CHARACTERS, { error: 'must be shorter' }),
        MAX_LIST_ITEMS,
      ).default([]),
    }),
  ),
  priorities: list(oneOf(...PRIORITIES), PRIORITIES.length)
    .min(1, { error: 'must hold at least one of now, soon, note' })
    .default(['now', 'soon']),
  wells: z.exactOptional(
    list(
      z
        .string({ error: 'must be the name of a well' })
        .refine(isName, { error: 'must be the name of a well' }),
      100_000,
    ),
  ),
});

const smtp = section({
  host,
  port: z.exactOptional(integer({ min: 1, max: PORTS.max })),
  secure: oneOf('starttls', 'tls', 'none').default('starttls'),
  user: z.exactOptional(text('must be a user name')),
  passwordFile: z.exactOptional(file),
  from: sender,
});

export const settingsShape = section({
  dataDir: text('must be the path of a folder').default('.stillwell'),
  root: text('must be topic levels of letters, digits, - and _ with / between them', (value) =>
    /^[\w-]+(\/[\w-]+){0,4}$/.test(value),
  ).default('wells'),
  broker: broker.prefault({}),
  observe: z.boolean({ error: 'must be true or false' }).default(false),
  web: section({
    host: oneOf('127.0.0.1', '::1', 'localhost').default('127.0.0.1'),
    port: integer(PORTS).default(8420),
  }).prefault({}),
  calendar: section({
    host: z.exactOptional(host),
    port: integer(PORTS).default(8422),
  }).prefault({}),
  retention: section({
    readingsDays: integer(READINGS_DAYS).default(READINGS_DAYS.default),
    cyclesDays: integer(CYCLES_DAYS).default(CYCLES_DAYS.default),
    refusedDays: integer(REFUSED_DAYS).default(REFUSED_DAYS.default),
  }).prefault({}),
  falseAlarmsPerYear: number(FALSE_ALARMS_PER_YEAR).default(FALSE_ALARMS_PER_YEAR.default),
  units: oneOf('us', 'metric').default('us'),
  notices: list(recipient, MAX_RECIPIENTS).default([]),
  smtp: z.exactOptional(smtp),
  cards: list(file, 100_000).default([]),
  cardsDir: z.exactOptional(text('must be the path of a folder')),
});

/** Settings as written, each part checked for itself. */
export type SettingsInput = z.output<typeof settingsShape>;
