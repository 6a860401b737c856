/**
 * Reads a quantity as people write it, "40 psi", into SI. The unit is part of what is written: a
 * bare number is refused, for half of the world would read it as something else.
 */
import { parseNumber } from './parse-number.ts';
import { texts } from './texts.ts';
import { UNITS, findUnit } from './units.ts';
import type { Dimension, Unit } from './units.ts';

/**
 * A quantity in SI with its dimension, or the rule that the text breaks, to stand after its key:
 * "must be …".
 */
export type ParsedQuantity = { si: number; dimension: Dimension } | { problem: string };

/** Longest text looked at: the longest sensible one, "1,234,567.891 inches", has 20 characters. */
const MAX_TEXT_CHARACTERS = 40;

/** Reads `value`, text with a unit, as a quantity of `dimension`. */
export function parseQuantity(value: unknown, dimension: Dimension): ParsedQuantity {
  const isReadable = typeof value === 'string' && value.length <= MAX_TEXT_CHARACTERS;
  const parts = isReadable ? splitUnit(value.trim()) : undefined;
  const unit = parts && findUnit(dimension, parts.unit);
  const number = parts && parseNumber(parts.number);
  if (!unit || number === undefined) return { problem: texts().mustBe(expectedText(dimension)) };
  return { si: unit.toSi(number), dimension };
}

/** "a pressure in kPa, psi or bar". */
export function expectedText(dimension: Dimension): string {
  const units: readonly Unit[] = UNITS[dimension];
  const names = units.map((unit) => unit.name);
  return texts().expected(texts().dimensions[dimension], names);
}

/** The unit is the word after the last digit or fraction sign; it may touch the number. */
function splitUnit(text: string): { number: string; unit: string } | undefined {
  const parts = /^(.*[\d¼½¾⅓⅔.])\s*([a-z°\u00b5\u03bc\u03a9\u2126][a-z0-9³/\u03a9\u2126-]*)$/i.exec(text);
  return parts?.[1] === undefined || parts[2] === undefined
    ? undefined
    : { number: parts[1], unit: parts[2] };
}
