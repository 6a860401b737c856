/**
 * Cross-section of a conductor as it is called: "12 AWG", "2/0 AWG", "250 kcmil", "4 mm2". By what
 * defines American wire gage: 4/0 is 0.46 in and 36 is 0.005 in across, and each step between is
 * the same ratio (ASTM B258, from memory). 1 kcmil is the circle of 0.0316 in.
 */
import { WIRE_AREA } from '../card/limits.ts';
import { rangeText } from '../schema/field.ts';
import { parseNumber } from './parse-number.ts';
import { texts } from './texts.ts';

const AWG = /^(?:(\d{1,2})|([1-4])\/0)\s*awg$/i;
const OTHER = /^([\d.,]+)\s*(kcmil|mcm|mm2|mm²)$/i;
const MM2_OF_KCMIL = (Math.PI / 4) * 25.4 ** 2 * 1e-3;

/** In mm2. */
export function parseWireSize(written: unknown): { value: number } | { problem: string } {
  const text = typeof written === 'string' ? written.trim() : '';
  const mm2 = awgArea(text) ?? otherArea(text);
  return mm2 !== undefined && mm2 >= WIRE_AREA.min && mm2 <= WIRE_AREA.max
    ? { value: mm2 }
    : { problem: texts().mustBeAWireSize(rangeText(WIRE_AREA)) };
}

/** 1/0 comes before 1, 2/0 before it. */
function awgArea(text: string): number | undefined {
  const [, gage, aughts] = AWG.exec(text) ?? [];
  if (gage === undefined && aughts === undefined) return undefined;
  const number = aughts === undefined ? Number(gage) : 1 - Number(aughts);
  const diameterMm = 0.127 * 92 ** ((36 - number) / 39);
  return (Math.PI / 4) * diameterMm ** 2;
}

function otherArea(text: string): number | undefined {
  const [, digits = '', unit = ''] = OTHER.exec(text) ?? [];
  const value = parseNumber(digits);
  if (value === undefined) return undefined;
  return unit.toLowerCase().startsWith('mm') ? value : value * MM2_OF_KCMIL;
}
