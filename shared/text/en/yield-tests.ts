/** A yield test in words: specific capacity, recovery, and what changed over the years. */
import type { YieldTest } from '../../api/figures/yield-tests.ts';
import {
  formatNumber,
  formatQuantity,
  toDisplayUnits,
  type UnitSystem,
} from '../../quantity/format-quantity.ts';
import { MINUTE_S } from '../../units/duration.ts';
import { formatDuration, formatFlow } from './format.ts';

export const yieldViewTexts = {
  wellLog: (date: string | undefined) => `Test of the well log${date === undefined ? '' : `, ${date}`}`,
  testOf: (date: string) => `Test of ${date}`,
  static: 'Static level',
  flow: 'Flow',
  drawdown: 'Well drawdown',
  pumped: 'Pumped for',
  specificCapacity: 'Specific capacity',
  change: 'Against the oldest test',
  lateFall: 'Fall in the last quarter',
  recovery: 'Recovery',
  by: 'By',
  lines: 'Lines of the test',
  minutes: 'Minutes',
  level: 'Level',
  phase: 'Pump',
  pumping: 'running',
  recovering: 'stopped',
  none: 'No yield test recorded.',
};

const level = (m: number, units: UnitSystem): string => formatQuantity(m, 'length', units, 1);

/** "0.11 gpm for each ft", "0.37 L/min for each m". */
export function specificCapacityText(lPerSPerM: number, units: UnitSystem): string {
  const flow = toDisplayUnits(lPerSPerM, 'flow', units);
  const length = toDisplayUnits(1, 'length', units);
  return `${formatNumber(Number((flow.value / length.value).toPrecision(2)), 3)} ${flow.unit} for each ${length.unit}`;
}

/** The facts of a test in their order; what is not known is left out. */
export function yieldFacts(test: YieldTest, units: UnitSystem): [name: string, text: string][] {
  const words = yieldViewTexts;
  const facts: [string, string | undefined][] = [
    [words.static, of(test.staticM, (m) => level(m, units))],
    [words.flow, of(test.flowLPerS, (flow) => formatFlow(flow, units))],
    [words.drawdown, of(test.drawdownM, (m) => level(m, units))],
    [words.pumped, of(test.pumpedS, formatDuration)],
    [words.specificCapacity, of(test.specificCapacity, (value) => specificCapacityText(value, units))],
    [words.change, of(test.change, changeText)],
    [words.lateFall, of(test.lateFallM, (m) => level(m, units))],
    [words.recovery, recoveryText(test)],
    [words.by, [test.doneBy, test.by].filter((name) => name !== undefined).join(', ') || undefined],
  ];
  return facts.flatMap(([name, text]): [string, string][] => (text === undefined ? [] : [[name, text]]));
}

function of(value: number | undefined, text: (value: number) => string): string | undefined {
  return value === undefined ? undefined : text(value);
}

function changeText(change: number): string {
  const percent = formatNumber(Math.abs(change) * 100, 0);
  return percent === '0' ? 'the same' : `${percent} % ${change > 0 ? 'more' : 'less'}`;
}

function recoveryText({ recoveredRatio, recoveredS }: YieldTest): string | undefined {
  if (recoveredS === undefined) return undefined;
  const how = recoveredRatio === undefined ? '' : `${formatNumber(recoveredRatio * 100, 0)} % `;
  return `${how}in ${formatDuration(recoveredS)}`;
}

/** A line as it stands in a table: minutes, level, flow. */
export function lineCells(
  { timeS, levelM, flowLPerS }: YieldTest['points'][number],
  units: UnitSystem,
): string[] {
  return [
    formatNumber(timeS / MINUTE_S, 1),
    level(levelM, units),
    flowLPerS === undefined ? '' : formatFlow(flowLPerS, units),
  ];
}

/** The same as somebody would type it, to fill the form with what was measured. */
export function writtenLine(
  { timeS, levelM, flowLPerS }: YieldTest['points'][number],
  units: UnitSystem,
): string {
  const minutes = `${formatNumber(timeS / MINUTE_S, 1)} min`;
  const flow = flowLPerS === undefined ? [] : [formatQuantity(flowLPerS, 'flow', units, 2)];
  return [minutes, level(levelM, units), ...flow].join(', ');
}
