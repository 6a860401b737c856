/**
 * One result of a laboratory as it was written -> what it says, in the kept unit, or the field and the rule that it breaks. "Less than"
 * stays so: a result under the laboratory's reporting limit is neither that limit nor zero.
 */
import { parseNumber } from '../quantity/parse-number.ts';
import { analyte, analyteNamed, type AnalyteKey } from './analytes.ts';
import type { Form } from './forms.ts';
import { keptUnit, readWaterUnit } from './water-units.ts';

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
  /** `below`: under the reporting limit, which is the value where it was given; `above`: over what the method can count. */
  is: 'value' | 'below' | 'above' | 'absent' | 'present';
  /** In `unit`. */
  value?: number;
  /** Figures that the report gave, so that a comparison is no finer than the result. */
  figures?: number;
  /** The kept unit with its form; as written for an analyte that is not in our table. */
  unit: string;
  remark?: string;
}

export type ReadResult =
  { result: WaterResult } | { problem: { key: 'analyte' | 'value' | 'unit'; rule: string } };

const LONGEST = 80;
/** More than the water itself: nothing dissolves so. */
const MOST_MG_PER_L = 1_000_000;

const PRESENT = /^(present|positive|pos|p|detected|\+)$/;
const ABSENT = /^(absent|negative|neg|a|-)$/;
const NOT_DETECTED =
  /^(?:nd|n\.d\.|bdl|not detected|none detected|below detection(?: limit)?)(?:\s*(?:\(\s*<?|<)\s*([\d.]+)\s*\)?)?$/;
const TOO_MANY = /^(tntc|too numerous to count|too many to count)$/;
const NUMBER = /^([<>≤≥]?)\s*(\d[\d,. ]*|\.\d+)\s*(.*)$/s;

/** Reads one result. Never throws. */
export function readResult(written: WrittenResult): ReadResult {
  const name = written.analyte.trim();
  if (name === '' || name.length > LONGEST)
    return wrong('analyte', `must be a name of 1 to ${LONGEST} characters`);
  const value = written.value.trim().toLowerCase();
  if (value === '' || value.length > LONGEST) return wrong('value', 'must be given as the report gives it');
  const named = analyteNamed(name);
  if (!named) return readUnknown(name, written, value);
  const { key } = named;
  const said = (is: WaterResult['is'], more: Partial<WaterResult> = {}): ReadResult => ({
    result: { key, name: analyte(key).name, is, unit: keptUnit(key), ...more },
  });
  if (PRESENT.test(value) || ABSENT.test(value)) {
    const is = PRESENT.test(value) ? 'present' : 'absent';
    if (analyte(key).measure === 'count') return said(is);
    return wrong('value', 'must be a number, "< …" or "not detected": absent and present are for bacteria');
  }
  if (TOO_MANY.test(value) && analyte(key).measure === 'count') return said('above');
  const none = NOT_DETECTED.exec(value);
  if (none && none[1] === undefined) return said('below');
  const parts = NUMBER.exec(none ? `< ${none[1]} ` : value);
  const number = parts ? parseNumber((parts[2] ?? '').trim()) : undefined;
  if (!parts || number === undefined)
    return wrong('value', 'must be a number, "< 0.5", "> 200", absent, present or not detected');
  const unit = unitOf(parts[3] ?? '', written.unit, unitUnsaid(key, named.form));
  if ('rule' in unit) return wrong('unit', unit.rule);
  const read = readWaterUnit(unit.text, key, named.form);
  if ('problem' in read) return wrong('unit', read.problem);
  const kept = number * read.unit.times;
  const bad = impossible(key, kept);
  if (bad !== undefined) return wrong('value', bad);
  return said(signOf(parts[1]), {
    value: kept,
    figures: figuresOf(parts[2] ?? ''),
    ...(read.unit.remark === undefined ? {} : { remark: read.unit.remark }),
  });
}

function wrong(key: 'analyte' | 'value' | 'unit', rule: string): ReadResult {
  return { problem: { key, rule } };
}

function signOf(sign: string | undefined): 'value' | 'below' | 'above' {
  if (sign === '<' || sign === '≤') return 'below';
  return sign === '>' || sign === '≥' ? 'above' : 'value';
}

/** The unit may stand behind the number or in its own field; two different ones are a slip that nobody should guess about. */
function unitOf(
  behind: string,
  own: string | undefined,
  needsNone: string | undefined,
): { text: string } | { rule: string } {
  const [one, other] = [behind.trim(), own?.trim() ?? ''];
  if (one !== '' && other !== '' && one.toLowerCase() !== other.toLowerCase())
    return { rule: `must be said once: "${one}" stands behind the number and "${other}" beside it` };
  const text = one === '' ? other : one;
  if (text !== '') return { text };
  return needsNone === undefined
    ? { rule: 'must be given: a number without its unit says nothing' }
    : { text: needsNone };
}

/** Where a number alone can mean one thing only; where it can mean two, the reason that is told names both. */
function unitUnsaid(key: AnalyteKey, named: Form | undefined): string | undefined {
  const { measure, formNeeded } = analyte(key);
  if (measure === 'ph') return 'pH';
  return formNeeded && named === undefined ? 'mg/L' : undefined;
}

function impossible(key: AnalyteKey, value: number): string | undefined {
  const { measure } = analyte(key);
  if (measure === 'ph' && value > 14) return 'must be a pH from 0 to 14';
  if (measure === 'mass' && value > MOST_MG_PER_L)
    return 'must be less than the water itself weighs; is the unit right?';
  return undefined;
}

/** Significant figures as written; noughts at the end count, for a report writes only those that it means. */
function figuresOf(text: string): number {
  return Math.max(1, text.replaceAll(/[^\d]/g, '').replace(/^0+/, '').length);
}

/** Kept as it stands, compared with nothing. */
function readUnknown(name: string, written: WrittenResult, value: string): ReadResult {
  const unit = written.unit?.trim() ?? '';
  if (unit.length > LONGEST) return wrong('unit', `must be text of at most ${LONGEST} characters`);
  const said = (is: WaterResult['is'], more: Partial<WaterResult> = {}): ReadResult => ({
    result: { name, is, unit, ...more },
  });
  if (PRESENT.test(value)) return said('present');
  if (ABSENT.test(value)) return said('absent');
  if (NOT_DETECTED.test(value)) return said('below');
  const parts = NUMBER.exec(value);
  const number = parts ? parseNumber((parts[2] ?? '').trim()) : undefined;
  if (!parts || number === undefined)
    return wrong('value', 'must be a number, "< 0.5", "> 200", absent, present or not detected');
  const read = unitOf(parts[3] ?? '', written.unit, undefined);
  if ('rule' in read) return wrong('unit', read.rule);
  return {
    result: {
      name,
      is: signOf(parts[1]),
      unit: read.text,
      value: number,
      figures: figuresOf(parts[2] ?? ''),
    },
  };
}
