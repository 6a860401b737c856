import { expect, test } from 'vitest';
import { sentenceOf, type ReasonOf } from '../../../shared/text/reason-of.ts';

const sentences = {
  dry: 'The well is dry.',
  deep: ({ m }: { m: number }) => `The well is ${m} m deep.`,
};

test.each([
  [{ reason: 'dry' }, 'The well is dry.'],
  [{ reason: 'deep', figures: { m: 60 } }, 'The well is 60 m deep.'],
] satisfies [ReasonOf<typeof sentences>, string][])('%j', (reason, sentence) => {
  expect(sentenceOf(sentences, reason)).toBe(sentence);
});
