import { describe, expect, test } from 'vitest';
import { isNodeName, nodeTopicFilters, parseTopic, formatTopic } from '../../../src/core/decode/topics.ts';

describe('parseTopic', () => {
  test.each([
    ['wells', 'wells/barn-north/readings', { node: 'barn-north', kind: 'readings' }],
    ['wells', 'wells/7/kept', { node: '7', kind: 'kept' }],
    ['farm/water', 'farm/water/barn/hello', { node: 'barn', kind: 'hello' }],
    ['wells', 'wells/barn-north/values', undefined],
    ['wells', 'wells/barn-north', undefined],
    ['wells', 'wells', undefined],
    ['wells', '', undefined],
    ['wells', 'wells2/barn-north/readings', undefined],
    ['wells', 'wells//readings', undefined],
    ['wells', 'wells/barn-north/readings/more', undefined],
    ['wells', 'wells/Barn/readings', undefined],
    ['wells', 'wells/+/readings', undefined],
    ['wells', `wells/${'a'.repeat(41)}/readings`, undefined],
    ['wells', 'wells/barn-north/constructor', undefined],
  ])('%s: %s', (root, topic, found) => {
    expect(parseTopic(root, topic)).toEqual(found);
  });
});

test('printTopic: gives back what parseTopic takes, and refuses a name that is none', () => {
  expect(formatTopic('wells', 'barn-north', 'ask')).toBe('wells/barn-north/ask');
  expect(() => formatTopic('wells', 'barn/north', 'ask')).toThrow(/^Cannot print topic: /);
});

test('nodeTopicFilters: the four topics that nodes publish', () => {
  expect(nodeTopicFilters('wells')).toEqual([
    'wells/+/hello',
    'wells/+/presence',
    'wells/+/readings',
    'wells/+/start',
  ]);
});

test('isNodeName: 1 to 40 of a-z 0-9 -', () => {
  expect(['a', '-', 'a'.repeat(40)].every(isNodeName)).toBe(true);
  expect(['', 'A', 'a_b', 'a b', 'a\n', 'a'.repeat(41), 'é'].some(isNodeName)).toBe(false);
});
