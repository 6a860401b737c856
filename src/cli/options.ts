/**
 * Options that several commands share, and the parsers of their values. A parser throws a
 * UsageError with the rule and the value.
 */
import { Option } from '@commander-js/extra-typings';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { isIsoDate } from '../core/domain/rfc3339.ts';
import { UsageError } from './command.ts';
import { DEFAULT_SERVER } from './server-api.ts';

export const SERVER_OPTION = new Option('--server <address>', 'Address of the running server.').default(
  DEFAULT_SERVER,
);
export const JSON_OPTION = new Option('--json', 'Print JSON for other programs, one object on each line.');
export const BY_OPTION = new Option('--by <name>', 'Who did it. Default: your user name on this computer.');
export const ON_OPTION = new Option('--on <date>', 'When it was so, as 2026-11-30. Default: now.');
export const NOTE_OPTION = new Option('--note <text>', 'A remark.');
export const PHOTO_OPTION = new Option(
  '--photo <file>',
  'A photo or document to keep with it. Repeat the option for each file.',
).argParser(collect);
export const SETTINGS_OPTION = new Option(
  '--settings <file>',
  'Settings file of the server. Default: .stillwell/settings.json.',
);
export const DATA_OPTION = new Option(
  '--data <dir>',
  'Data folder of the server. Default: the one in the settings, or .stillwell.',
);
export const UNITS_OPTION = new Option('--units <units>', 'us or metric. Default: us.').argParser(readUnits);

/** For an option that may be repeated. */
export function collect(text: string, before: string[] | undefined): string[] {
  return [...(before ?? []), text];
}

/** @throws UsageError */
export function readUnits(text: string): UnitSystem {
  if (text === 'us' || text === 'metric') return text;
  throw new UsageError(`Cannot read --units: it must be us or metric: ${text}`);
}

/** A whole number within bounds. The parser throws a UsageError. */
export function wholeNumber(flag: string, bounds: { from: number; to: number }): (text: string) => number {
  return (text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (!Number.isInteger(value) || value < bounds.from || value > bounds.to)
      throw new UsageError(
        `Cannot read ${flag}: it must be a whole number from ${bounds.from} to ${bounds.to}: ${text}`,
      );
    return value;
  };
}

/** A day, as 2026-11-30. The parser throws a UsageError. */
export function isoDate(flag: string): (text: string) => string {
  return (text) => {
    if (!isIsoDate(text))
      throw new UsageError(`Cannot read ${flag}: it must be a date such as 2026-11-30: ${text}`);
    return text;
  };
}
