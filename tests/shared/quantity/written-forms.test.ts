/** Wire sizes, points of a pump's curve and positions as people write them. */
import { describe, expect, test } from 'vitest';
import { parseCurvePoint } from '../../../shared/quantity/parse-curve-point.ts';
import { parsePosition } from '../../../shared/quantity/parse-position.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { parseWireSize } from '../../../shared/quantity/parse-wire-size.ts';

describe('parseWireSize reads', () => {
  // Areas as wire tables list them (from memory): 12 AWG 3.31, 10 AWG 5.26, 2/0 67.4 mm2.
  test.each([
    ['12 AWG', 3.31],
    ['10awg', 5.26],
    ['14 AWG', 2.08],
    ['1/0 AWG', 53.5],
    ['2/0 AWG', 67.4],
    ['250 kcmil', 126.7],
    ['4 mm2', 4],
    ['2.5 mm²', 2.5],
  ])('%s', (text, mm2) => {
    const read = parseWireSize(text);
    expect('value' in read && read.value).toBeCloseTo(mm2, mm2 > 20 ? 1 : 2);
  });

  test.each(['12', '12 ga', 'AWG', '40 AWG', '5/0 AWG', '2000 kcmil', '', 12])(
    '%j as no wire size',
    (text) => {
      expect(parseWireSize(text)).toEqual({
        problem:
          'must be a wire size in AWG, kcmil or mm2 (such as "12 AWG"), from 22 AWG (0.33 mm2) to 1,000 kcmil (507 mm2)',
      });
    },
  );
});

describe('parseCurvePoint reads', () => {
  test.each([
    ['10 gpm at 180 ft', 0.6309, 54.86],
    ['40 L/min @ 73 m', 0.6667, 73],
    ['0 gpm, 390 ft', 0, 118.87],
  ])('%s', (text, flowLPerS, headM) => {
    const read = parseCurvePoint(text);
    expect('value' in read && read.value.flowLPerS).toBeCloseTo(flowLPerS, 3);
    expect('value' in read && read.value.headM).toBeCloseTo(headM, 1);
  });

  test.each(['10 at 180', '10 gpm', '180 ft at 10 gpm', 'ten gpm at 180 ft', ''])(
    '%j as no point',
    (text) => {
      expect(parseCurvePoint(text)).toEqual({
        problem: 'must each be a flow and a head (such as "10 gpm at 180 ft")',
      });
    },
  );
});

test('parsePosition reads decimal degrees and refuses others', () => {
  expect(parsePosition('40.01, -105.27')).toEqual({ value: { latitude: 40.01, longitude: -105.27 } });
  expect(parsePosition('-33.9;18.4')).toEqual({ value: { latitude: -33.9, longitude: 18.4 } });
  for (const wrong of ['91, 0', '40.01', '40°0′36″N 105°16′12″W', '40, 181', 7])
    expect(parsePosition(wrong)).toHaveProperty('problem');
});

test('an acre-foot is 325,851 gallons (43,560 cubic feet)', () => {
  const read = parseQuantity('2 acre-ft', 'volume');
  expect('si' in read && read.si / 3.785411784).toBeCloseTo(651_703, 0);
});
