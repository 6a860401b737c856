/** 'Written 40/60 psi, measured 41/59 psi': how what was measured is said beside what is written. */
import type { Beside } from '../api/measured.ts';
import { inPeoplesUnits, printNumber, printQuantity, type UnitSystem } from '../quantity/print-quantity.ts';

const FROM = {
  learnt: 'usual by the readings',
  pinned: 'pinned',
  sensors: 'read off the sensors',
  hand: 'brought by hand',
} as const;

/** One figure: "written 38 psi, measured 35 psi (brought by hand)". A most is told as one. */
export function besideWords({ written, measured, is, judged }: Beside, units: UnitSystem): string {
  const print = (value: number): string => printQuantity(value, is, units);
  const [newest] = measured;
  const said =
    written === undefined ? 'not written' : `written ${judged === 'most' ? 'at most ' : ''}${print(written)}`;
  return newest ? `${said}, measured ${print(newest.value)} (${FROM[newest.from]})` : said;
}

/** Both points of the switch as the trade calls them; undefined where one of them was not measured. */
export function switchWords(beside: readonly Beside[], units: UnitSystem): string | undefined {
  const [low, high] = ['switch.cutIn', 'switch.cutOut'].map((key) => beside.find((one) => one.key === key));
  const [lowNow, highNow] = [low?.measured[0], high?.measured[0]];
  if (!low || !high || !lowNow || !highNow) return undefined;
  const said =
    low.written === undefined || high.written === undefined
      ? 'not written'
      : `written ${pair(low.written, high.written, units)}`;
  const from = lowNow.from === highNow.from ? ` (${FROM[lowNow.from]})` : '';
  return `${said}, measured ${pair(lowNow.value, highNow.value, units)}${from}`;
}

/** "40/60 psi". */
function pair(lowKpa: number, highKpa: number, units: UnitSystem): string {
  const [low, high] = [lowKpa, highKpa].map((kpa) => inPeoplesUnits(kpa, 'pressure', units));
  return `${printNumber(low?.value ?? Number.NaN, 0)}/${printNumber(high?.value ?? Number.NaN, 0)} ${high?.unit}`;
}
