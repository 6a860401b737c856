/**
 * Reads the fields of a table (shared/schema/field.ts) from what people wrote: each value in SI, or
 * its rule noted as broken.
 */
import { MAX_CURVE_POINTS, MAX_TEXT_CHARACTERS } from '../../../shared/card/limits.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import {
  rangeText,
  type Field,
  type Fields,
  type Values,
  type ValueRange,
} from '../../../shared/schema/field.ts';
import { parseCurvePoint, type CurvePoint } from '../../../shared/quantity/parse-curve-point.ts';
import { parsePosition } from '../../../shared/quantity/parse-position.ts';
import { parseSwitchPair } from '../../../shared/quantity/parse-switch-pair.ts';
import { parseWireSize } from '../../../shared/quantity/parse-wire-size.ts';
import { channelCode } from './channels.ts';
import { isDocumentHash } from './document-hash.ts';
import {
  addIssue,
  childContext,
  choiceAt,
  dateAt,
  fieldValue,
  momentAt,
  nameAt,
  quantityAt,
  required,
  textAt,
  textsAt,
  type ParseContext,
} from './parse-context.ts';
import { texts } from './texts.ts';

/**
 * The values that are given and right. They count only where nothing was noted: one that must be
 * given and is not is missing here.
 */
export function readFields<T extends Fields>(context: ParseContext, fields: T): Values<T> {
  const values = Object.entries(fields).map(([key, field]) => [
    field.as ?? key,
    readField(context, key, field),
  ]);
  // The compiler does not follow a table into the type of its values.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return omitUndefined(Object.fromEntries(values) as object) as Values<T>;
}

function readField(context: ParseContext, key: string, field: Field): unknown {
  const value = readKind(context, key, field);
  return field.required === true ? required(context, key, value) : value;
}

function readKind(context: ParseContext, key: string, field: Field): unknown {
  switch (field.kind) {
    case 'quantity':
      return quantityAt(context, key, field.dimension, field.range);
    case 'number':
      return numberAt(context, key, field.range);
    case 'integer':
      return numberAt(context, key, field.range, Number.isInteger);
    case 'flag':
      return valueAt(context, key, isFlag, () => texts().mustBeAFlag);
    case 'choice':
      return choiceAt(context, key, field.options);
    case 'choices':
      return choicesAt(context, key, field.options);
    case 'choice-list':
      return choiceListAt(context, key, field.options);
    case 'text':
      return textAt(context, key, field.maxCharacters);
    case 'lines':
      return linesAt(context, key, field);
    case 'date':
      return dateAt(context, key);
    case 'moment':
      return momentAt(context, key);
    case 'name':
      return nameAt(context, key);
    case 'pump':
      return valueAt(context, key, isPump, () => texts().mustBeAPump);
    case 'channel':
      return valueAt(context, key, isChannel, () => texts().mustBeAChannel);
    case 'point-pairs':
      return valueAt(context, key, isTwoPairs, () => texts().mustBePairsOfNumbers);
    case 'time-zone':
      return valueAt(context, key, isTimeZone, () => texts().mustBeATimeZone);
    case 'switch-points':
      return switchPointsAt(context, key, field.range);
    case 'wire-size':
      return parsedAt(context, key, parseWireSize);
    case 'curve':
      return curveAt(context, key);
    case 'position':
      return parsedAt(context, key, parsePosition);
    case 'documents':
      return documentsAt(context, key, field.maxItems);
    case 'document':
      return valueAt(context, key, isDocumentHash, () => texts().mustBeADocument);
    case 'object':
      return objectAt(context, key, field.fields);
    case 'special':
      return fieldValue(context, key);
    default:
      return field satisfies never;
  }
}

function objectAt(context: ParseContext, key: string, fields: Fields): unknown {
  const inner = childContext(context, key, Object.keys(fields));
  return inner && readFields(inner, fields);
}

/** The value where it passes; else its rule is noted. */
function valueAt(
  context: ParseContext,
  key: string,
  isRight: (value: unknown) => boolean,
  rule: () => string,
): unknown {
  const value = fieldValue(context, key);
  if (value === undefined || isRight(value)) return value;
  addIssue(context, key, rule());
  return undefined;
}

/**
 * Offsets such as "+02:00" are left out: they know no summer time, and the local day would be wrong
 * half of the year.
 */
function isTimeZone(value: unknown): boolean {
  if (typeof value !== 'string' || !/^[A-Za-z]/.test(value)) return false;
  if (knownTimeZones.has(value)) return true;
  try {
    const known = new Intl.DateTimeFormat('en', { timeZone: value }).resolvedOptions().timeZone !== '';
    if (known) knownTimeZones.add(value);
    return known;
  } catch {
    return false;
  }
}

/** Those asked for so far: a thousand cards name few zones, and each question costs 0.5 ms. */
const knownTimeZones = new Set<string>();

function isFlag(value: unknown): boolean {
  return typeof value === 'boolean';
}

function isPump(value: unknown): boolean {
  return typeof value === 'string' && /^p([1-9]|1[0-5])$/.test(value);
}

function isChannel(value: unknown): boolean {
  return typeof value === 'string' && channelCode(value) !== undefined;
}

function isTwoPairs(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every(isPair);
}

function isPair(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every(Number.isFinite);
}

/** What is read of a text, or its rule. */
function parsedAt<T>(
  context: ParseContext,
  key: string,
  parse: (text: unknown) => { value: T } | { problem: string },
): T | undefined {
  const written = fieldValue(context, key);
  if (written === undefined) return undefined;
  const read = parse(written);
  if ('value' in read) return read.value;
  addIssue(context, key, read.problem);
  return undefined;
}

/** Points in the order in which they are written; an empty list says nothing. */
function curveAt(context: ParseContext, key: string): CurvePoint[] | undefined {
  const limits = { maxItems: MAX_CURVE_POINTS, maxCharacters: MAX_TEXT_CHARACTERS };
  const points = textsAt(context, key, limits).flatMap((written): CurvePoint[] => {
    const read = parseCurvePoint(written);
    if ('value' in read) return [read.value];
    addIssue(context, key, read.problem, JSON.stringify(written));
    return [];
  });
  return points.length === 0 ? undefined : points;
}

function choiceListAt(context: ParseContext, key: string, options: readonly string[]): unknown {
  const isOption = (one: unknown): boolean => options.some((option) => option === one);
  const isRight = (value: unknown): boolean => Array.isArray(value) && value.every(isOption);
  return valueAt(context, key, isRight, () => texts().mustBeAListOf(options));
}

function numberAt(
  context: ParseContext,
  key: string,
  range: ValueRange,
  isRight: (value: number) => boolean = () => true,
): unknown {
  const fits = (value: unknown): boolean =>
    typeof value === 'number' && value >= range.min && value <= range.max && isRight(value);
  return valueAt(context, key, fits, () => texts().mustBeInRange(rangeText(range)));
}

function choicesAt(context: ParseContext, key: string, options: readonly string[]): unknown {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  const list: unknown[] = Array.isArray(value) ? value : [value];
  if (list.every((one) => options.some((option) => option === one)))
    return options.filter((option) => list.includes(option));
  addIssue(context, key, texts().mustBeOneOrSome(options));
  return undefined;
}

/** An empty list says nothing. */
function linesAt(
  context: ParseContext,
  key: string,
  limits: { maxItems: number; maxCharacters: number },
): unknown {
  const read = textsAt(context, key, limits);
  return read.length === 0 ? undefined : read;
}

function switchPointsAt(context: ParseContext, key: string, range: ValueRange): unknown {
  const value = fieldValue(context, key);
  if (value === undefined) return undefined;
  const read = parseSwitchPair(typeof value === 'string' ? value : '');
  if ('problem' in read) addIssue(context, key, read.problem);
  else if (read.cutInKpa < range.min || read.cutOutKpa > range.max)
    addIssue(context, key, texts().mustBeInRange(rangeText(range)));
  else return read;
  return undefined;
}

function documentsAt(context: ParseContext, key: string, maxItems: number): unknown {
  const isRight = (value: unknown): boolean =>
    Array.isArray(value) && value.length <= maxItems && value.every(isDocumentHash);
  return valueAt(context, key, isRight, () => texts().mustBeDocuments(maxItems));
}
