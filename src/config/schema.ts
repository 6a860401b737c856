/**
 * The shape of the settings file. Rules between keys stand in ./cross-checks.ts; what a notice
 * channel needs stands in its folder under src/channels.
 */
import { z } from 'zod';
import { PRIORITIES } from '../../shared/text/en/alarms/kinds.ts';
import { isName } from '../core/domain/parse-context.ts';
import { CYCLES_DAYS, FALSE_ALARMS_PER_YEAR, MAX_RECIPIENTS, READINGS_DAYS, REFUSED_DAYS } from './limits.ts';
import { CHANNELS, CHANNEL_NAMES, SHARED_PARTS } from '../channels/channels.ts';
import type { ChannelName, RecipientChannels, SharedSettings } from '../channels/channels.ts';
import {
  file,
  host,
  integer,
  isUrlOf,
  list,
  number,
  oneOf,
  PORTS,
  section,
  text,
} from '../settings-shapes.ts';
import { texts } from '../settings-texts.ts';

/**
 * The shapes of all channels, and of what they share: each from its own folder (src/channels).
 */
const channelShapes = Object.fromEntries(
  CHANNEL_NAMES.map((name) => [name, z.exactOptional(CHANNELS[name].shape)]),
) as { [Name in ChannelName]: z.ZodExactOptional<z.ZodType<NonNullable<RecipientChannels[Name]>>> };
const sharedShapes = Object.fromEntries(
  SHARED_PARTS.map(({ key, shape }) => [key, z.exactOptional(shape)]),
) as {
  [Key in keyof SharedSettings]-?: z.ZodExactOptional<z.ZodType<NonNullable<SharedSettings[Key]>>>;
};

const broker = section({
  builtIn: z.exactOptional(
    section({
      host: host.default('127.0.0.1'),
      port: integer(PORTS).default(1883),
    }),
  ),
  url: z.exactOptional(
    text(
      () => texts().mustBeAnAddressSuch,
      (value) => isUrlOf(value, ['mqtt:', 'mqtts:', 'ws:', 'wss:']),
    ),
  ),
  username: z.exactOptional(text(() => texts().mustBeAUserName)),
  passwordFile: z.exactOptional(file),
  caFile: z.exactOptional(file),
  certFile: z.exactOptional(file),
  keyFile: z.exactOptional(file),
  clientId: z.exactOptional(
    text(
      () => texts().mustBeToOfLetters,
      (value) => /^[\w-]{1,128}$/.test(value),
    ),
  ),
  protocolVersion: z.exactOptional(oneOf(5, 4)),
});

const recipient = section({
  name: text(
    () => texts().mustBeAName,
    (value) => value.length <= 60,
  ),
  ...channelShapes,
  priorities: list(oneOf(...PRIORITIES), PRIORITIES.length)
    .min(1, { error: () => texts().mustHoldAtLeastOneOf })
    .default(['now', 'soon']),
  wells: z.exactOptional(
    list(
      z.string({ error: () => texts().mustBeTheName }).refine(isName, { error: () => texts().mustBeTheName }),
      100_000,
    ),
  ),
});

export const settingsShape = section({
  dataDir: text(() => texts().mustBeThePath).default('.stillwell'),
  root: text(
    () => texts().mustBeTopicLevels,
    (value) => /^[\w-]+(\/[\w-]+){0,4}$/.test(value),
  ).default('wells'),
  broker: broker.prefault({}),
  observe: z.boolean({ error: () => texts().mustBeTrueOrFalse }).default(false),
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
  ...sharedShapes,
  cards: list(file, 100_000).default([]),
  cardsDir: z.exactOptional(text(() => texts().mustBeThePath)),
});

/** Settings as written, each part checked for itself. */
export type SettingsInput = z.output<typeof settingsShape>;
