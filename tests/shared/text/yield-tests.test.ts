import { expect, test } from 'vitest';
import { specificCapacityText, writtenLine, yieldFacts } from '../../../shared/text/en/yield-tests.ts';
import { parseTestLine } from '../../../shared/quantity/parse-test-line.ts';

const GPM = 3.785411784 / 60;

test('specific capacity is told to two figures, in the reader’s units', () => {
  expect(specificCapacityText((0.1997 * GPM) / 0.3048, 'us')).toBe('0.2 gpm for each ft');
  expect(specificCapacityText(0.0062, 'metric')).toBe('0.37 L/min for each m');
});

test('facts are those that are known', () => {
  expect(yieldFacts({ points: [], recovery: [], recoveredS: 1800, recoveredRatio: 0.945 }, 'us')).toEqual([
    ['Recovery', '95 % in 30 min'],
  ]);
});

test('a line that the form is filled with can be read again', () => {
  const line = writtenLine({ timeS: 600, levelM: 25.9, flowLPerS: 0.5 }, 'us');
  expect(line).toBe('10 min, 85 ft, 7.93 gpm');
  expect(parseTestLine(line)).toHaveProperty('value');
  expect(parseTestLine('1,440 min, 85 ft')).toMatchObject({ value: { timeS: 86_400 } });
});
