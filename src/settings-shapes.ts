/**
 * What the settings file is described with: shapes whose rules carry their own words ("must be …"),
 * because the one who reads them has a text editor open and a well to mind. The settings themselves
 * are in src/config, those of a notice channel in its folder under src/channels.
 */
import { z } from 'zod';
import { texts } from './settings-texts.ts';

/** Asked for when they are shown, in the language of that moment. */
export type SettingWords = string | (() => string);

/** A setting in a sentence for people. */
export interface SettingHelp {
  /** Path in the file; `[]` stands for each entry of a list. */
  key: string;
  description: SettingWords;
  defaultText?: SettingWords;
}

/** What is right alone and wrong together: where, and the rule. */
export interface SettingsProblem {
  path: readonly (string | number)[];
  rule: string;
  /** A key that is no setting: it may be a secret, misspelt. */
  unknownKey?: true;
}

/** TCP ports; 0 asks the system for any free one. */
export const PORTS = { min: 0, max: 65_535 };

/** Mail addresses of one recipient, arguments of one command. */
export const MAX_LIST_ITEMS = 20;

/** Longest path, URL or address. */
export const MAX_TEXT_CHARACTERS = 1000;

/** Text without control characters that passes `isValid`. */
export function text(rule: SettingWords, isValid: (value: string) => boolean = () => true) {
  const isPrintable = (value: string): boolean =>
    value.trim() !== '' && value.length <= MAX_TEXT_CHARACTERS && !/\p{Cc}/u.test(value);
  return z.string({ error: rule }).refine((value) => isPrintable(value) && isValid(value), { error: rule });
}

export function number(span: { min: number; max: number }) {
  const rule = (): string => texts().mustBeANumber(span);
  return z.number({ error: rule }).min(span.min, { error: rule }).max(span.max, { error: rule });
}

export function integer(span: { min: number; max: number }) {
  const rule = (): string => texts().mustBeAWholeNumber(span);
  return z.int({ error: rule }).min(span.min, { error: rule }).max(span.max, { error: rule });
}

export function oneOf<const T extends string | number | boolean>(...options: T[]) {
  return z.literal(options, { error: () => texts().mustBeOneOf(options.join(', ')) });
}

export function list<T extends z.ZodType>(item: T, max: number) {
  const rule = (): string => texts().mustBeAList(max);
  return z.array(item, { error: rule }).max(max, { error: rule });
}

/**
 * Only the wrong type gets these words; an unknown key is told by src/config/read-settings.ts,
 * which knows the known ones.
 */
export function section<T extends z.core.$ZodLooseShape>(shape: T) {
  return z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? undefined : texts().mustBeAnObject),
  });
}

export const file = text(() => texts().mustBeAFile);
export const host = text(
  () => texts().mustBeAHost,
  (value) => /^[A-Za-z0-9.:_-]+$/.test(value),
);
export function isUrlOf(value: string, protocols: readonly string[]): boolean {
  return URL.canParse(value) && protocols.includes(new URL(value).protocol);
}
