/**
 * One result of a laboratory as it was written -> what it says, in the kept unit, or the field and
 * the rule that it breaks. "Less than" stays so: a result under the laboratory's reporting limit is
 * neither that limit nor zero.
 */
import { parseNumber } from '../quantity/parse-number.ts';
import { analyte, findAnalyte, type AnalyteKey } from './analytes.ts';
import type { Form } from './forms.ts';
import { texts } from './texts.ts';
import { canonicalUnit, readWaterUnit } from './water-units.ts';
import { analyteName } from '../text/en/logbook/analyte-names.ts';

/** As a person copies it from the report: "Nitrate", "< 0.5", "mg/L as N". */
export interface WrittenResult {
  analyte: string;
  value: string;
  unit?: string;
}

export interface WaterResult {
  /** Absent for an analyte that is not in our table. */
  key?: AnalyteKey;
  name: string;
  /**
   * `below`: under the reporting limit, which is the value where it was given; `above`: over what
   * the method can count.
   */
  is: 'value' | 'below' | 'above' | 'absent' | 'present';
  /** In `unit`. */
  value?: number;
  /** Figures that the report gave, so that a comparison is no finer than the result. */
  significantFigures?: number;
  /** The kept unit with its form; as written for an analyte that is not in our table. */
  unit: string;
  remark?: string;
}

export type ReadResult =
  { result: WaterResult } | { problem: { key: 'analyte' | 'value' | 'unit'; rule: string } };

const MAX_LENGTH = 80;
/** More than the water itself: nothing dissolves so. */
const MAX_MG_PER_L = 1_000_000;

const PRESENT = /^(present|positive|pos|p|detected|\+)$/;
const ABSENT = /^(absent|negative|neg|a|-)$/;
const NOT_DETECTED =
  /^(?:nd|n\.d\.|bdl|not detected|none detected|below detection(?: limit)?)(?:\s*(?:\(\s*<?|<)\s*([\d.]+)\s*\)?)?$/;
const TOO_MANY = /^(tntc|too numerous to count|too many to count)$/;
const NUMBER = /^([<>≤≥]?)\s*(\d[\d,. ]*|\.\d+)\s*(.*)$/s;

/** Reads one result. Never throws. */
export function readResult(written: WrittenResult): ReadResult {
  const name = written.analyte.trim();
  if (name === '' || name.length > MAX_LENGTH)
    return resultProblem('analyte', texts().mustBeAName(MAX_LENGTH));
  const value = written.value.trim().toLowerCase();
  if (value === '' || value.length > MAX_LENGTH) return resultProblem('value', texts().mustBeAsReported);
  const named = findAnalyte(name);
  if (!named) return readUnknownAnalyte(name, written, value);
  const { key } = named;
  const resultOf = (is: WaterResult['is'], more: Partial<WaterResult> = {}): ReadResult => ({
    result: { key, name: analyteName(key), is, unit: canonicalUnit(key), ...more },
  });
  if (PRESENT.test(value) || ABSENT.test(value)) {
    const is = PRESENT.test(value) ? 'present' : 'absent';
    if (analyte(key).measure === 'count') return resultOf(is);
    return resultProblem('value', texts().mustBeANumberOrNone);
  }
  if (TOO_MANY.test(value) && analyte(key).measure === 'count') return resultOf('above');
  const none = NOT_DETECTED.exec(value);
  if (none && none[1] === undefined) return resultOf('below');
  const parts = NUMBER.exec(none ? `< ${none[1]} ` : value);
  const number = parts ? parseNumber((parts[2] ?? '').trim()) : undefined;
  if (!parts || number === undefined) return resultProblem('value', texts().mustBeAResult);
  const unit = chooseUnit(parts[3] ?? '', written.unit, impliedUnit(key, named.form));
  if ('rule' in unit) return resultProblem('unit', unit.rule);
  const read = readWaterUnit(unit.text, key, named.form);
  if ('problem' in read) return resultProblem('unit', read.problem);
  const kept = number * read.unit.factor;
  const bad = impossibleValueRule(key, kept);
  if (bad !== undefined) return resultProblem('value', bad);
  return resultOf(comparisonKind(parts[1]), {
    value: kept,
    significantFigures: countSignificantFigures(parts[2] ?? ''),
    ...(read.unit.remark === undefined ? {} : { remark: read.unit.remark }),
  });
}

function resultProblem(key: 'analyte' | 'value' | 'unit', rule: string): ReadResult {
  return { problem: { key, rule } };
}

function comparisonKind(sign: string | undefined): 'value' | 'below' | 'above' {
  if (sign === '<' || sign === '≤') return 'below';
  return sign === '>' || sign === '≥' ? 'above' : 'value';
}

/**
 * The unit may stand behind the number or in its own field; two different ones are a slip that
 * nobody should guess about.
 */
function chooseUnit(
  afterNumber: string,
  unitField: string | undefined,
  impliedUnit: string | undefined,
): { text: string } | { rule: string } {
  const [one, other] = [afterNumber.trim(), unitField?.trim() ?? ''];
  if (one !== '' && other !== '' && one.toLowerCase() !== other.toLowerCase())
    return { rule: texts().mustBeSaidOnce({ one, other }) };
  const text = one === '' ? other : one;
  if (text !== '') return { text };
  return impliedUnit === undefined ? { rule: texts().mustHaveAUnit } : { text: impliedUnit };
}

/**
 * Where a number alone can mean one thing only; where it can mean two, the reason that is told
 * names both.
 */
function impliedUnit(key: AnalyteKey, named: Form | undefined): string | undefined {
  const { measure, formRequired } = analyte(key);
  if (measure === 'ph') return 'pH';
  return formRequired && named === undefined ? 'mg/L' : undefined;
}

function impossibleValueRule(key: AnalyteKey, value: number): string | undefined {
  const { measure } = analyte(key);
  if (measure === 'ph' && value > 14) return texts().mustBeAPh;
  if (measure === 'mass' && value > MAX_MG_PER_L) return texts().mustBeLessThanWater;
  return undefined;
}

/**
 * Significant figures as written; noughts at the end count, for a report writes only those that it
 * means.
 */
function countSignificantFigures(text: string): number {
  return Math.max(1, text.replaceAll(/[^\d]/g, '').replace(/^0+/, '').length);
}

/** Kept as it stands, compared with nothing. */
function readUnknownAnalyte(name: string, written: WrittenResult, value: string): ReadResult {
  const unit = written.unit?.trim() ?? '';
  if (unit.length > MAX_LENGTH) return resultProblem('unit', texts().mustBeText(MAX_LENGTH));
  const resultOf = (is: WaterResult['is'], more: Partial<WaterResult> = {}): ReadResult => ({
    result: { name, is, unit, ...more },
  });
  if (PRESENT.test(value)) return resultOf('present');
  if (ABSENT.test(value)) return resultOf('absent');
  if (NOT_DETECTED.test(value)) return resultOf('below');
  const parts = NUMBER.exec(value);
  const number = parts ? parseNumber((parts[2] ?? '').trim()) : undefined;
  if (!parts || number === undefined) return resultProblem('value', texts().mustBeAResult);
  const read = chooseUnit(parts[3] ?? '', written.unit, undefined);
  if ('rule' in read) return resultProblem('unit', read.rule);
  return {
    result: {
      name,
      is: comparisonKind(parts[1]),
      unit: read.text,
      value: number,
      significantFigures: countSignificantFigures(parts[2] ?? ''),
    },
  };
}
