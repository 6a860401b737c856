/** Texts of the page of a well’s water over the years and of its pumps on their curves. */
import { formatNumber, formatQuantity, type UnitSystem } from '../../../quantity/format-quantity.ts';
import { HOUR_S } from '../../../units/duration.ts';
import { acreFtFromL, lFromGal, m3FromL } from '../../../units/water.ts';
import { formatCount } from '../format.ts';

interface Starts {
  starts: number;
  hours: string;
  since: string;
  installed: string | undefined;
  uncountedDays: number;
}

export const figuresTexts = {
  subject: 'the figures',
  water: 'Water by month and year',
  noWater: 'No day has a water total yet. A total needs a flow meter, or a clamp and a transducer.',
  period: 'Period',
  used: 'Water',
  ofAllowed: 'Of the allowed volume',
  measured: 'Days measured',
  allowed: (volume: string) => `The card allows ${volume} per calendar year.`,
  leastNote:
    'A day without a total is left out, not counted as zero. With days missing, at least this much was pumped. If a permit names a meter, report the reading of that meter.',
  daysOf: (measured: number, days: number) => `${measured} of ${days}`,
  months: (year: string) => `Months of ${year}`,
  pump: (number: string | undefined) => (number === undefined ? 'Pump' : `Pump ${number}`),
  today: 'Current values, from the runs of the last week',
  noDuty: 'No run in the last week has a measured flow.',
  flow: 'Flow',
  head: 'Head',
  curveHead: 'Head on the pump curve at this flow',
  power: 'Power',
  efficiency: 'Wire-to-water efficiency',
  energy: 'Energy',
  headNote: (from: 'sensor' | 'reading', level: string, day: string) =>
    `Head is the depth to water while pumping (${level}, ${from === 'sensor' ? 'lowest level of the week, from the level sensor' : `read on ${day}`}) plus the mean pressure at the tank. Friction loss in the pipe is left out: the true head is higher.`,
  noHead:
    'To calculate the head, Stillwell needs a pumping level: a reading, or a level sensor and the set depth.',
  noCurve: 'The card has no pump curve. Enter points of flow and head to compare.',
  curve: 'Pump curve from the card, with the current operating point',
  ofCurve: (percent: string) => `${percent} of the curve’s head`,
  wornNote:
    'A point below the curve can mean a worn pump, a hole in the drop pipe, low voltage, a wrong meter or level reading, or friction. The contractor measures before pulling anything.',
  startsText: ({ starts, hours, since, installed, uncountedDays }: Starts) =>
    [
      `${formatCount(starts, 'start')} and ${hours} since ${since}.`,
      ...(installed !== undefined && since > installed
        ? [`Installed ${installed}: earlier starts and hours are not counted.`]
        : []),
      ...(uncountedDays > 0 ? [`${formatCount(uncountedDays, 'day')} without a count.`] : []),
    ].join(' '),
  dropText: (volts: string, percent: string, amps: string) =>
    `The wire on the card loses ${volts} at ${amps}, ${percent} of the motor’s voltage.`,
};

/** "1.24 acre-ft (404,000 gal)", "1,530 m3": with three figures, as meters are read. */
export function formatWaterTotal(litres: number, units: UnitSystem): string {
  if (units === 'metric') return `${threeFigures(m3FromL(litres))} m3`;
  const gallons = `${formatNumber(Number((litres / lFromGal(1)).toPrecision(3)), 0)} gal`;
  const acreFt = acreFtFromL(litres);
  return acreFt < 0.01 ? gallons : `${threeFigures(acreFt)} acre-ft (${gallons})`;
}

function threeFigures(value: number): string {
  const decimals = value >= 100 ? 0 : value >= 10 ? 1 : 2;
  return formatNumber(Number(value.toPrecision(3)), decimals);
}

export function formatHours(seconds: number): string {
  return `${formatNumber(seconds / HOUR_S, 0)} h`;
}

/** "1.9 kWh per 1,000 gal", "0.5 kWh per m3". */
export function formatEnergy(whPerL: number, units: UnitSystem): string {
  return units === 'us'
    ? `${formatNumber(whPerL * lFromGal(1), 2)} kWh per 1,000 gal`
    : `${formatNumber(whPerL, 2)} kWh per m3`;
}

export function formatPowerKw(watts: number): string {
  return formatQuantity(watts, 'power', 'metric');
}

export function formatPercent(ratio: number): string {
  return `${formatNumber(ratio * 100, ratio < 0.1 ? 1 : 0)} %`;
}
