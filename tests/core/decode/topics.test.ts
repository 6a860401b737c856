import { describe, expect, test } from 'vitest';
import { isNodeName, parseTopic } from '../../../src/core/decode/topics.ts';

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

test('isNodeName: 1 to 40 of a-z 0-9 -', () => {
  expect(['a', '-', 'a'.repeat(40)].every(isNodeName)).toBe(true);
  expect(['', 'A', 'a_b', '__proto__', 'a b', 'a\n', 'a'.repeat(41), 'é'].some(isNodeName)).toBe(false);
});
