/**
 * How to tell causes apart: what is offered for which causes, and that nobody is sent where it is
 * dangerous.
 */
import { expect, test } from 'vitest';
import type { Cause } from '../../../shared/text/en/alarms/kinds.ts';
import {
  DISTINGUISHING_CHECKS,
  distinguishingChecks,
} from '../../../shared/text/en/causes/distinguishing-checks.ts';

const weighed = (...causes: [Cause, number][]) => causes.map(([cause, weight]) => ({ cause, weight }));

test.each<[string, ReturnType<typeof weighed>, string | undefined]>([
  [
    'a leak on either side: the house valve',
    weighed(['leak', 0.4], ['open-tap', 0.3], ['check-valve', 0.3]),
    'Push each yard hydrant fully down. Turn the water heater off',
  ],
  [
    'a dead supply or a dead motor: the lights',
    weighed(['power-lost', 0.5], ['overload-tripping', 0.5]),
    'See whether other lights',
  ],
  ['a weak pump or a weak well: a rest', weighed(['worn-pump', 0.6], ['low-well', 0.4]), 'Let the well rest'],
  [
    'a tank or a leak: no water drawn',
    weighed(['tank-air-lost', 0.6], ['leak', 0.4]),
    'Close all taps and watch',
  ],
  ['one cause alone: nothing to part', weighed(['worn-pump', 1]), undefined],
  [
    'two of one side: nothing parts them here',
    weighed(['power-lost', 0.5], ['breaker-open', 0.5]),
    undefined,
  ],
])('%s', (_name, causes, begins) => {
  expect(distinguishingChecks(causes)[0]?.how.slice(0, begins?.length ?? 0)).toBe(begins);
});

test('no more than three, and those first that part the likelier causes', () => {
  const many = weighed(
    ['leak', 0.3],
    ['check-valve', 0.2],
    ['tank-air-lost', 0.25],
    ['habit-changed', 0.1],
    ['clamp-off', 0.05],
    ['low-well', 0.1],
  );
  const reported = distinguishingChecks(many);
  expect(reported).toHaveLength(3);
  expect(reported[0]?.sideA).toContain('tank-air-lost');
});

test('each is made of short whole sentences, parts two sides, and opens nothing electrical', () => {
  for (const { sideA, sideB, how } of DISTINGUISHING_CHECKS) {
    expect(how).toMatch(/^[A-Z].*\.$/u);
    for (const sentence of how.split(/[.:;]\s/)) expect(sentence.split(' ').length).toBeLessThanOrEqual(32);
    expect(sideA.filter((cause) => sideB.includes(cause))).toEqual([]);
    expect(how).not.toMatch(
      /\bopen (up )?(the |a )?(control box|box|switch|panel|cover|disconnect|cap|pit|tank)/iu,
    );
    expect(how).not.toMatch(/\b(jump|bridge|bypass|hold in|tape|plug|reset)\b/iu);
  }
});
