/** A value that somebody wrote or sent, as a sentence names it. */

/** Its own text, or what it is where its text would be too long to be read. */
export type WrittenValue = string | { is: keyof typeof UNREADABLE };

const UNREADABLE = {
  list: 'a list',
  object: 'an object',
  nothing: 'nothing',
  'too-deep': 'something nested too deeply',
} as const;

export function writtenValue(value: WrittenValue): string {
  return typeof value === 'string' ? value : UNREADABLE[value.is];
}
