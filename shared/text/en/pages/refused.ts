/** Texts of the page of refused messages. */

/** What each refusal is called, by its short name on the wire. */
export const refusalTitles = {
  retained: 'Retained pack',
  'too-large': 'Payload too large',
  'too-many-records': 'Too many records',
  empty: 'Empty message',
  'not-utf8': 'Not UTF-8 text',
  'not-json': 'Not JSON',
  'not-cbor': 'Not CBOR',
  'too-deep': 'Nested too deep',
  'not-a-pack': 'Not a SenML pack',
  'unknown-version': 'Unknown version',
  'bad-name': 'Invalid name',
  'name-mismatch': 'Name of another node',
  'unknown-channel': 'No known channel',
  'wrong-unit': 'Wrong unit',
  'no-value': 'Value missing',
  'not-a-number': 'Not a number',
  'out-of-range': 'Value out of range',
  'time-too-coarse': 'Time too coarse',
  'bad-time': 'Invalid time',
  'bad-boot': 'Invalid boot number',
  'bad-seq': 'Invalid sequence number',
  'bad-hello': 'Invalid hello',
  'bad-presence': 'Invalid presence',
  'unknown-topic': 'Unknown topic',
  'not-let-in': 'Node not approved',
  'too-many-nodes': 'Too many nodes',
  'ignored-names': 'Names ignored',
} as const;

export const refusedTexts = {
  title: 'Refused messages',
  intro: 'Refused messages from nodes, with the reason. They affect no other messages.',
  subject: 'the refused messages',
  none: 'No refused messages.',
  countByReason: 'Count by reason',
  countAndLast: (count: number, ago: string) => `${count}, last ${ago}`,
  latest: 'Latest',
  titleOf: (name: string) => Object.entries(refusalTitles).find(([known]) => known === name)?.[1],
  firstBytes: (topic: string) => `First bytes of the message on ${topic}`,
};
