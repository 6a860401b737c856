import { expect, it } from 'vitest';
import { shortenCases } from '../../../src/lab/score/shorten.ts';
import { faultCase, houseCase } from '../support/corpus-cases.ts';

it('healthy wells are played for so many days at most, faults to their end', () => {
  const cases = [houseCase({ days: 90 }), houseCase({ days: 20 }), { ...faultCase(), days: 90 }];
  expect(shortenCases(cases, 30).map(({ days }) => days)).toEqual([30, 20, 90]);
  expect(shortenCases(cases, undefined)).toEqual(cases);
});
