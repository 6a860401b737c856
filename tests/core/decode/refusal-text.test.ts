/** What stands in the list of refused messages, for whoever repairs a node. */
import { expect, test } from 'vitest';
import { refusalText } from '../../../src/core/decode/refusal-text.ts';
import { readMessage } from '../../../src/core/decode/read-message.ts';

const said = (topic: string, payload: string): string => {
  const read = readMessage({
    root: 'wells',
    topic,
    payload: Buffer.from(payload),
    retained: false,
    arrivalMs: 0,
  });
  if (read.is !== 'refusal') throw new Error('It was taken');
  return refusalText(read.refusal);
};

test.each([
  ['elsewhere', '', 'Topics are wells/{node}/{what}: "elsewhere".'],
  ['wells/barn/presence', 'away', 'A presence is here, gone or no-power, not "away".'],
  ['wells/barn/readings', '[{', 'These 2 bytes are not a complete JSON text.'],
  ['wells/barn/readings', '{}', 'A pack is a list of records, not an object.'],
  ['wells/barn/readings', '[]', 'A pack has 1 to 2000 records: this one has none.'],
  ['wells/barn/readings', '[{"n":"barn:current","v":[]}]', 'v is a finite number: record 1 has a list.'],
  [
    'wells/barn/readings',
    '[{"bn":"barn:","n":"pressure","u":"psi","v":52}]',
    'pressure is in Pa: record 1 has "psi".',
  ],
  [
    'wells/barn/readings',
    '[{"bn":"barn:","n":"current","v":-5000}]',
    'current lies between -1 and 1000 A: record 1 has -5000.',
  ],
  ['wells/barn/hello', '[]', 'The message: Invalid input: expected object, received array.'],
])('%s %s', (topic, payload, sentence) => {
  expect(said(topic, payload)).toBe(sentence);
});
