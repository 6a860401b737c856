/**
 * What the labels of tank and switch share: the two points of the switch, written and measured, and
 * the air charge that follows from them.
 */
import type { LabelLine } from '../../../shared/api/labels.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { toDisplayUnits, formatNumber } from '../../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { LabelFacts } from './label-lines.ts';
import { calculatePrecharge, type PrechargeResult } from '../readings/precharge.ts';
import { texts } from './texts.ts';

/** What the tank is to be charged to: said on its own label and on the switch's. */
export function prechargeFor({ card, pump, measured }: LabelFacts): PrechargeResult {
  const measuredCutInKpa = measured['cut-in']?.si;
  const writtenCutInKpa = card.switch.cutInKpa;
  return calculatePrecharge({
    control: pump.control,
    tankKind: card.tank?.kind ?? 'captive-air',
    ...(measuredCutInKpa !== undefined && { measuredCutInKpa }),
    ...(writtenCutInKpa !== undefined && { writtenCutInKpa }),
  });
}

/** "40/60 psi", as the trade calls a switch; of one point alone the other is a blank. */
export function switchLine({ card, measured, units }: LabelFacts): LabelLine {
  const written = formatPair(card.switch.cutInKpa, card.switch.cutOutKpa, units);
  const read = formatPair(measured['cut-in']?.si, measured['cut-out']?.si, units);
  const atMs = Math.min(measured['cut-in']?.atMs ?? Infinity, measured['cut-out']?.atMs ?? Infinity);
  const value = written ?? read;
  const detailOf = (pair: string, on: string): string =>
    written === undefined ? texts().measuredOn(on) : texts().measured(pair, on);
  return {
    name: texts().switchPoints,
    prominent: true,
    ...(value !== undefined && { value }),
    ...(read !== undefined && { detail: detailOf(read, localDate(atMs, card.timeZone)) }),
  };
}

function formatPair(
  inKpa: number | undefined,
  outKpa: number | undefined,
  units: UnitSystem,
): string | undefined {
  if (inKpa === undefined || outKpa === undefined) return undefined;
  const numbers = [inKpa, outKpa].map((kpa) => formatNumber(toDisplayUnits(kpa, 'pressure', units).value, 0));
  return `${numbers.join('/')} ${toDisplayUnits(0, 'pressure', units).unit}`;
}
