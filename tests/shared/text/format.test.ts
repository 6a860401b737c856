/** Figures as they stand in sentences. */
import { describe, expect, test } from 'vitest';
import {
  formatAmps,
  formatCount,
  formatDepth,
  formatDiameter,
  formatDuration,
  formatFlow,
  formatMotorPower,
  formatPressure,
  formatPercent,
  formatTemperature,
  formatResistance,
  formatVolts,
  formatVolume,
} from '../../../shared/text/en/format.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';

test.each<[string, (units: UnitSystem) => string, string, string]>([
  ['pressure', (units) => formatPressure(275.79, units), '40 psi', '276 kPa'],
  ['a tankful', (units) => formatVolume(49.2, units), '13 gal', '49 L'],
  ['a small leak', (units) => formatVolume(3.4, units), '0.9 gal', '3.4 L'],
  ['a day’s use', (units) => formatVolume(7571, units), '2,000 gal', '7,571 L'],
  ['flow', (units) => formatFlow(0.6309, units), '10 gpm', '37.9 L/min'],
  ['depth', (units) => formatDepth(54.864, units), '180 ft', '54.9 m'],
  ['frost', (units) => formatTemperature(1.7, units), '35 F', '1.7 C'],
  ['a motor', (units) => formatMotorPower(559.3, units), '3/4 hp', '0.56 kW'],
])('%s', (_name, say, us, metric) => {
  expect([say('us'), say('metric')]).toEqual([us, metric]);
});

test('amps, volts, counts and shares', () => {
  expect([
    formatAmps(7.916),
    formatVolts(231.4),
    formatCount(1, 'start', 'starts'),
    formatCount(1200, 'start', 'starts'),
  ]).toEqual(['7.92 A', '231 V', '1 start', '1,200 starts']);
  expect([formatPercent(0.042), formatPercent(0.12), formatPercent(-0.05), formatPercent(1)]).toEqual([
    '4.2 %',
    '12 %',
    '-5 %',
    '100 %',
  ]);
});

test.each([
  [3.2, '3.2 ohm'],
  [0, '0 ohm'],
  [999, '999 ohm'],
  [47_000, '47 kohm'],
  [5e8, '500 megohm'],
  [1.5e6, '1.5 megohm'],
])('sayResistance(%d)', (ohm, want) => expect(formatResistance(ohm)).toBe(want));

// Nominal sizes of casings and drop pipes.
test.each([
  [0.03175, '1-1/4 in', '32 mm'],
  [0.1524, '6 in', '152 mm'],
  [0.01905, '3/4 in', '19 mm'],
  [0.0381, '1-1/2 in', '38 mm'],
  [0.168275, '6-5/8 in', '168 mm'],
  [0.1413, '5-9/16 in', '141 mm'],
  // Nominal sizes in mm, which lie near an inch size and on none.
  [0.15, '6 in', '150 mm'],
  [0.032, '1-1/4 in', '32 mm'],
])('sayDiameter(%d)', (m, us, metric) => {
  expect([formatDiameter(m, 'us'), formatDiameter(m, 'metric')]).toEqual([us, metric]);
});

describe('sayDuration', () => {
  test.each([
    [0, '0 s'],
    [45, '45 s'],
    [59.6, '1 min'],
    [118, '1 min 58 s'],
    [120, '2 min'],
    [599, '9 min 59 s'],
    [1080, '18 min'],
    [1109, '18 min'],
    [3599, '1 h'],
    [7500, '2 h 5 min'],
    [86_399, '1 day'],
    [90_000, '1 day 1 h'],
    [274_000, '3 days 4 h'],
    [172_799, '2 days'],
    [-5, '0 s'],
  ])('%d s is %j', (s, said) => {
    expect(formatDuration(s)).toBe(said);
  });
});
