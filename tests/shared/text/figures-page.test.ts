import { expect, test } from 'vitest';
import { figuresTexts, formatEnergy, formatWaterTotal } from '../../../shared/text/en/pages/figures.ts';

test('totals are told in acre-feet with gallons, or in m3, to three figures', () => {
  expect(formatWaterTotal(1_233_482 * 1.24, 'us')).toBe('1.24 acre-ft (404,000 gal)');
  expect(formatWaterTotal(3785.4, 'us')).toBe('1,000 gal');
  expect(formatWaterTotal(1_533_000, 'metric')).toBe('1,530 m3');
});

test('energy is told for each 1,000 gallons or cubic meter', () => {
  expect(formatEnergy(0.5, 'us')).toBe('1.89 kWh per 1,000 gal');
  expect(formatEnergy(0.5, 'metric')).toBe('0.5 kWh per m3');
});

test('starts say since when, and what is not counted', () => {
  const facts = { starts: 1, hours: '2 h', since: '2026-03-01', installed: '2019', uncountedDays: 3 };
  expect(figuresTexts.startsText(facts)).toBe(
    '1 start and 2 h since 2026-03-01. Installed 2019: earlier starts and hours are not counted. 3 days without a count.',
  );
});
