import { expect, test } from 'vitest';
import type { WaterResultAnswer } from '../../../shared/api/due.ts';
import { adviceFor } from '../../../shared/water/advice.ts';
import { compareResult } from '../../../shared/water/compare.ts';
import { readResult } from '../../../shared/water/result.ts';
import { notableResults } from '../../../shared/text/en/water-text.ts';

function answer(analyte: string, value: string, unit?: string): WaterResultAnswer {
  const read = readResult({ analyte, value, ...(unit !== undefined && { unit }) });
  if ('problem' in read) throw new Error(read.problem.rule);
  const compared = compareResult(read.result, { drawnOn: '2026-10-01', today: '2026-11-26' });
  const advice = adviceFor(read.result, compared);
  return {
    analyte,
    written: value,
    name: read.result.name,
    is: read.result.is,
    unit: read.result.unit,
    elsewhere: [],
    comparisons: compared.map(({ limit: { analyte: _of, ...limit }, verdict }) => ({ limit, verdict })),
    ...(advice && { advice: { text: advice.text, cautions: [] } }),
  };
}

test('what makes ill at once is read first, then what is over a limit for health, then taste and stains', () => {
  const results = [
    answer('Iron', '1.2', 'mg/L'),
    answer('Hardness', '200', 'mg/L'),
    answer('Nitrate', '12', 'mg/L as N'),
    answer('Total coliform', 'absent'),
    answer('Fecal coliform', 'present'),
    answer('Lead', '10', 'ug/L'),
    answer('E. coli', 'present'),
  ];
  expect(notableResults(results).map(({ name }) => name)).toEqual([
    'Fecal coliform bacteria',
    'E. coli',
    'Nitrate',
    'Lead',
    'Iron',
  ]);
});
