/**
 * A pressure switch is called by its two points: "40/60", "30-50 psi", "2.8/4.1 bar". Without a
 * unit it is psi, because that bare name is the North American trade's (common practice, no
 * source).
 */
import { parseNumber } from './parse-number.ts';
import { texts } from './texts.ts';
import { findUnit } from './units.ts';

export type ParsedSwitchPair = { cutInKpa: number; cutOutKpa: number } | { problem: string };

const PAIR = /^([\d.]+)\s*[/-]\s*([\d.]+)\s*([a-z]*)$/i;

/** Reads a switch's name into cut-in and cut-out, kPa gauge. */
export function parseSwitchPair(text: string): ParsedSwitchPair {
  const parts = PAIR.exec(text.trim());
  const cutIn = parseNumber(parts?.[1] ?? '');
  const cutOut = parseNumber(parts?.[2] ?? '');
  const unit = findUnit('pressure', parts?.[3] === '' ? 'psi' : (parts?.[3] ?? ''));
  if (cutIn === undefined || cutOut === undefined || !unit) {
    return { problem: texts().mustBeTwoPressures };
  }
  if (cutIn <= 0 || cutIn >= cutOut) return { problem: texts().mustHaveCutInBelowCutOut };
  return { cutInKpa: unit.toSi(cutIn), cutOutKpa: unit.toSi(cutOut) };
}
