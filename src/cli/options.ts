/**
 * Options that several commands share, and the parsers of their values. A parser throws a
 * UsageError with the rule and the value.
 */
import { Option } from '@commander-js/extra-typings';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { isIsoDate } from '../core/domain/rfc3339.ts';
import { UsageError } from './command.ts';
import { DEFAULT_SERVER } from './server-api.ts';
import { texts } from './texts.ts';

export const serverOption = () =>
  new Option('--server <address>', texts().addressOfTheServerWithDefault(DEFAULT_SERVER)).default(
    DEFAULT_SERVER,
  );
export const jsonOption = () => new Option('--json', texts().printJsonForOtherPrograms);
export const byOption = () => new Option('--by <name>', texts().whoDidItDefaultYour);
export const onOption = () => new Option('--on <date>', texts().whenItWasSoDefault);
export const noteOption = () => new Option('--note <text>', texts().remark);
export const photoOption = () =>
  new Option('--photo <file>', texts().photoOrDocumentToKeep).argParser(collect);
export const settingsOption = () => new Option('--settings <file>', texts().settingsFileOfTheServer);
export const dataOption = () => new Option('--data <dir>', texts().dataFolderOfTheServer);
export const unitsOption = () =>
  new Option('--units <units>', texts().usOrMetricDefaultUs).argParser(readUnits);

/** For an option that may be repeated. */
export function collect(text: string, before: string[] | undefined): string[] {
  return [...(before ?? []), text];
}

/** @throws UsageError */
export function readUnits(text: string): UnitSystem {
  if (text === 'us' || text === 'metric') return text;
  throw new UsageError(texts().itMustBeUs(text));
}

/** A whole number within bounds. The parser throws a UsageError. */
export function wholeNumber(flag: string, bounds: { from: number; to: number }): (text: string) => number {
  return (text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (!Number.isInteger(value) || value < bounds.from || value > bounds.to)
      throw new UsageError(texts().itMustBeAWhole({ flag, from: bounds.from, to: bounds.to, text }));
    return value;
  };
}

/** A day, as 2026-11-30. The parser throws a UsageError. */
export function isoDate(flag: string): (text: string) => string {
  return (text) => {
    if (!isIsoDate(text)) throw new UsageError(texts().itMustBeADate({ flag, text }));
    return text;
  };
}
