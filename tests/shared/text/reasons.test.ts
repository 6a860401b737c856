/**
 * Reasons in words: the same figures for readers of US units, of metric ones, and for machines;
 * names that are nobody else's.
 */
import { describe, expect, it, test } from 'vitest';
import { ALARM_KINDS } from '../../../shared/text/en/alarms/kinds.ts';
import { TEXT_OF } from '../../../shared/text/en/alarms/text-index.ts';
import { REASON_FORMATS } from '../../../shared/text/en/reasons/format.ts';
import { reasonSentence, type Reason } from '../../../shared/text/en/reasons/reasons.ts';

const { us, metric, both } = REASON_FORMATS;

describe('format', () => {
  test.each([
    [us.pressure(407), '59 psi'],
    [metric.pressure(407), '407 kPa'],
    [both.pressure(407), '59 psi (407 kPa)'],
    [us.pressure(2.4), '0.35 psi'],
    [metric.volume(1234.5), '1,235 L'],
    [us.volume(8), '2.1 gal'],
    [both.length(1.5), '4.9 ft (1.5 m)'],
    [us.temperature(0), '32 F'],
    [metric.temperature(-0.4), '0 C'],
    [us.amps(7.456), '7.46 A'],
    [us.percent(-0.043), '4.3 %'],
    [us.percent(0.5), '50 %'],
    [us.duration(45), '45 s'],
    [us.duration(12_000), '3 h 20 min'],
    [us.duration(4 * 86_400), '4 days'],
    [us.count(1, 'run', 'runs'), '1 run'],
    [us.count(1200, 'run', 'runs'), '1,200 runs'],
    [us.list(['5 A', '7 A']), '5 A and 7 A'],
  ])('%s', (printed, expected) => expect(printed).toBe(expected));
});

describe('reasonSentence', () => {
  const frost: Reason = { reason: 'air-near-freezing', figures: { airC: 3.2, isFalling: true } };
  test.each([
    ['us', us, /is 38 F and falling\. .* freezes at 32 F\.$/],
    ['metric', metric, /is 3 C and falling\. .* freezes at 0 C\.$/],
    ['both', both, /is 38 F \(3 C\) and falling\. .* freezes at 32 F \(0 C\)\.$/],
  ])('%s', (_units, format, sentence) => expect(reasonSentence(frost, format)).toMatch(sentence));

  it('gives back a sentence that was stored as one', () => {
    expect(reasonSentence({ reason: 'as-written', figures: { text: 'It leaks.' } }, us)).toBe('It leaks.');
  });

  it('has none for a reason of another version', () => {
    expect(reasonSentence({ reason: 'constructor', figures: {} }, us)).toBeUndefined();
  });
});

it('names every reason once', () => {
  const names = Object.values(TEXT_OF).flatMap(({ reasons }) => Object.keys(reasons));
  expect(names.length).toBeGreaterThan(ALARM_KINDS.length);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
});
