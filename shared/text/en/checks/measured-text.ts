/**
 * 'Written 40/60 psi, measured 41/59 psi': how a measured value is shown beside the one on the
 * card.
 */
import type { CardComparison } from '../../../api/card-comparison.ts';
import {
  toDisplayUnits,
  formatNumber,
  formatQuantity,
  type UnitSystem,
} from '../../../quantity/format-quantity.ts';

const SOURCE_TEXT = {
  learned: 'learned from the readings',
  pinned: 'pinned',
  sensors: 'read from the sensors',
  hand: 'read by a person',
} as const;

/** One figure: "written 38 psi, measured 35 psi (read by a person)". A maximum is shown as one. */
export function comparisonText(
  { written, measured, dimension, rule }: CardComparison,
  units: UnitSystem,
): string {
  const format = (value: number): string => formatQuantity(value, dimension, units);
  const [newest] = measured;
  const writtenText =
    written === undefined
      ? 'not on the card'
      : `on the card ${rule === 'max' ? 'at most ' : ''}${format(written)}`;
  return newest
    ? `${writtenText}, measured ${format(newest.value)} (${SOURCE_TEXT[newest.from]})`
    : writtenText;
}

/**
 * Both points of the switch as the trade writes them; undefined if one of them was not measured.
 */
export function switchComparisonText(
  beside: readonly CardComparison[],
  units: UnitSystem,
): string | undefined {
  const [low, high] = ['switch.cutIn', 'switch.cutOut'].map((key) => beside.find((one) => one.key === key));
  const [lowNow, highNow] = [low?.measured[0], high?.measured[0]];
  if (!low || !high || !lowNow || !highNow) return undefined;
  const writtenText =
    low.written === undefined || high.written === undefined
      ? 'not on the card'
      : `on the card ${switchPairText(low.written, high.written, units)}`;
  const from = lowNow.from === highNow.from ? ` (${SOURCE_TEXT[lowNow.from]})` : '';
  return `${writtenText}, measured ${switchPairText(lowNow.value, highNow.value, units)}${from}`;
}

/** "40/60 psi". */
function switchPairText(lowKpa: number, highKpa: number, units: UnitSystem): string {
  const [low, high] = [lowKpa, highKpa].map((kpa) => toDisplayUnits(kpa, 'pressure', units));
  return `${formatNumber(low?.value ?? Number.NaN, 0)}/${formatNumber(high?.value ?? Number.NaN, 0)} ${high?.unit}`;
}
